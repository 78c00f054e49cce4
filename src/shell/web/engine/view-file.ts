import type { JobView } from "./protocol.ts";

/** What JSON has no word for, by the name of its kind. */
type Tagged =
  | { readonly $: "map"; readonly of: readonly (readonly [unknown, unknown])[] }
  | { readonly $: "set"; readonly of: readonly unknown[] }
  | { readonly $: "number"; readonly of: string };

/** A view as the text of a file, with its maps, its sets and its endless numbers. */
export function writeView(view: JobView): string {
  return JSON.stringify(view, (_, value: unknown): unknown => {
    if (value instanceof Map) return { $: "map", of: [...value] } satisfies Tagged;
    if (value instanceof Set) return { $: "set", of: [...value] } satisfies Tagged;
    if (typeof value === "number" && !Number.isFinite(value))
      return { $: "number", of: String(value) } satisfies Tagged;
    return value;
  });
}

/** The view that was written. */
export function readView(text: string): JobView {
  return JSON.parse(text, (_, value: unknown): unknown => (isTagged(value) ? untagged(value) : value));
}

function isTagged(value: unknown): value is Tagged {
  return typeof value === "object" && value !== null && "$" in value;
}

function untagged(tagged: Tagged): unknown {
  switch (tagged.$) {
    case "map":
      return new Map(tagged.of);
    case "set":
      return new Set(tagged.of);
    case "number":
      return Number(tagged.of);
  }
}
