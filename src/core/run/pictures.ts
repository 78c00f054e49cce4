import type { Picture } from "./picture.ts";

/** Pictures by key. Those of a condition beside the programme are taken when they are first asked for. */
export class Pictures extends Map<string, Picture> {
  readonly #later = new Map<string, () => Iterable<readonly [string, Picture]>>();

  /** Pictures whose keys are `id` or `id@...`, to be taken later. */
  addLater(id: string, take: () => Iterable<readonly [string, Picture]>): void {
    this.#later.set(id, take);
  }

  #take(id: string): void {
    const take = this.#later.get(id);
    if (take === undefined) return;
    this.#later.delete(id);
    for (const [key, picture] of take()) this.set(key, picture);
  }

  #takeAll(): void {
    for (const id of [...this.#later.keys()]) this.#take(id);
  }

  override get(key: string): Picture | undefined {
    this.#take(key.split("@")[0]);
    return super.get(key);
  }

  override has(key: string): boolean {
    this.#take(key.split("@")[0]);
    return super.has(key);
  }

  override get size(): number {
    this.#takeAll();
    return super.size;
  }

  override keys(): MapIterator<string> {
    this.#takeAll();
    return super.keys();
  }

  override values(): MapIterator<Picture> {
    this.#takeAll();
    return super.values();
  }

  override entries(): MapIterator<[string, Picture]> {
    this.#takeAll();
    return super.entries();
  }

  override [Symbol.iterator](): MapIterator<[string, Picture]> {
    return this.entries();
  }

  override forEach(visit: (picture: Picture, key: string, map: Map<string, Picture>) => void): void {
    this.#takeAll();
    super.forEach(visit);
  }
}
