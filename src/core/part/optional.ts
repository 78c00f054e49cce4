/** A key with its value, or no key at all: an optional member that is not known is left out, never `undefined`. */
export function optional<K extends string, T>(key: K, value: T | undefined): { readonly [P in K]?: T } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: T });
}
