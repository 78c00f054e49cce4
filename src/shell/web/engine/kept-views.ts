import type { Ask, JobView } from "./protocol.ts";

/** Views kept on the device; those kept longest ago go first. */
const MOST = 30;

type WorkOut = Ask & { readonly do: "work out" };

/**
 * Views as they were last worked out on this device: a job that is opened again shows its step at once, while the engine
 * wakes. A view is found again only by all that it hangs on: this very build with its facts, the shop's own words, the job.
 */
export class KeptViews {
  readonly #build: string;
  readonly #database: Promise<IDBDatabase | undefined>;
  readonly #keys: Promise<Set<string>>;

  /** @param build  names the engine and its facts: another build keeps views of its own */
  constructor(build: string) {
    this.#build = build;
    this.#database = opened();
    this.#keys = this.#database.then(async (database) => new Set(database && (await keysIn(database))));
  }

  /** The view that would be worked out, where it was worked out before. */
  async of(ask: WorkOut, own: string | undefined): Promise<JobView | undefined> {
    const key = await this.#keyOf(ask, own);
    const database = await this.#database;
    if (key === undefined || database === undefined || !(await this.#keys).has(key)) return undefined;
    const kept: { readonly view: JobView } | undefined = await done(viewsIn(database, "readonly").get(key));
    return kept?.view;
  }

  /** Keeps a view; where the device has no room for it, it is simply not kept. */
  async keep(ask: WorkOut, own: string | undefined, view: JobView): Promise<void> {
    const key = await this.#keyOf(ask, own);
    const database = await this.#database;
    if (key === undefined || database === undefined) return;
    const keys = await this.#keys;
    if (keys.has(key)) return;
    const store = viewsIn(database, "readwrite");
    await done(store.put({ view, at: Date.now() }, key));
    keys.add(key);
    const oldest = await keysIn(database);
    for (const old of oldest.slice(0, Math.max(0, oldest.length - MOST))) {
      viewsIn(database, "readwrite").delete(old);
      keys.delete(old);
    }
  }

  /** Undefined where the browser makes no digests: over plain http. */
  async #keyOf({ text, where }: WorkOut, own = ""): Promise<string | undefined> {
    return await digest(JSON.stringify([this.#build, own, where, text]));
  }
}

/** SHA-256 in hexadecimal; undefined over plain http, where no page may make one. */
export async function digest(text: string): Promise<string | undefined> {
  if (!self.isSecureContext) return undefined;
  const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

const STORE = "views";

/** Undefined where the browser keeps nothing: in a private window. */
function opened(): Promise<IDBDatabase | undefined> {
  const asked = indexedDB.open("faultwright-views", 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore(STORE).createIndex("at", "at");
  return done(asked).catch(() => undefined);
}

function viewsIn(database: IDBDatabase, mode: IDBTransactionMode): IDBObjectStore {
  return database.transaction(STORE, mode).objectStore(STORE);
}

/** Those kept longest ago first. */
async function keysIn(database: IDBDatabase): Promise<readonly string[]> {
  const keys = await done(viewsIn(database, "readonly").index("at").getAllKeys());
  return keys.map(String);
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the browser's database gave no reason"));
  });
}
