/** How a paper is drawn; what is on it is told by the paper alone. */
export interface Drawing {
  readonly size: "A4" | "LETTER";
  /** The shop's own mark, as it is: an SVG. */
  readonly logo?: string;
}
