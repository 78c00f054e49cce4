/** "Insulation: failed." of "insulation: failed.": a line that stands by itself. */
export function capital(line: string): string {
  return line.charAt(0).toUpperCase() + line.slice(1);
}
