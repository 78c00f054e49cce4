/** A parsed formula or condition; see `parseExpression`. */
export interface Expression {
  readonly text: string;
}
