/** How a paper is drawn; what is on it is told by the paper alone. */
export interface Drawing {
  readonly size: "A4" | "LETTER";
  /** The shop's own mark: an SVG as it is, or a PNG or JPEG as a data address. */
  readonly logo?: string;
  /** Signatures as they were drawn on the glass, an SVG each, by hash; where one is not at hand its line says so. */
  readonly signatures?: ReadonlyMap<string, string>;
}

/** Is the mark a picture, and no drawing? */
export function isPicture(logo: string): boolean {
  return logo.startsWith("data:image/");
}
