// The door of `csv`: separated text to rows with their line numbers, and back.
export { type CsvRow, csvRows } from "./rows.ts";
export { csvText } from "./write.ts";
