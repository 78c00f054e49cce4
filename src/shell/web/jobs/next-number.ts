/** The number people call the next job by: year, and how many there are. */
export async function nextNumber(count: Promise<number>): Promise<string> {
  const year = new Date().getFullYear() % 100;
  return `${year}-${String((await count) + 1).padStart(4, "0")}`;
}
