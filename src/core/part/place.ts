/** Where a text stands: what every issue about it will name. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly at: readonly (string | number)[];
}
