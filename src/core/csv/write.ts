/**
 * Rows as comma separated text, each line ended by CR LF; a field is quoted where it must be.
 *
 * @source RFC 4180, section 2
 */
export function csvText(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function field(text: string): string {
  return /[",\r\n]/.test(text) || text.trim() !== text ? `"${text.replaceAll('"', '""')}"` : text;
}
