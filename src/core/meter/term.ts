/** One predicted true value with its spread, or no path at all. What `predict` hands over has these fields. */
export type Term =
  | { readonly kind: "value"; readonly mean: number; readonly sigma: number }
  | { readonly kind: "open" };
