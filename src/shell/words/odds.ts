/**
 * Odds as a technician says them: "almost certainly", "about 6 in 10", "unlikely".
 * A number is never dressed up as more than it is: the shares behind it are from memory.
 */
export function oddsInWords(p: number): string {
  if (p >= 0.975) return "almost certainly";
  if (p < 0.05) return "unlikely";
  const tenths = Math.round(p * 10);
  if (tenths === 0) return "about 1 in 20";
  if (tenths === 10) return "better than 9 in 10";
  if (tenths === 5) return "about even";
  return `about ${tenths} in 10`;
}

/** Minutes in words: "a minute", "about 4 minutes", "about a quarter of an hour". */
export function minutesInWords(minutes: number): string {
  if (minutes < 0.75) return "under a minute";
  if (minutes < 1.5) return "a minute";
  if (minutes < 13) return `about ${Math.round(minutes)} minutes`;
  if (minutes < 18) return "about a quarter of an hour";
  if (minutes < 26) return "about twenty minutes";
  if (minutes < 38) return "about half an hour";
  if (minutes < 52) return "about three quarters of an hour";
  if (minutes < 75) return "about an hour";
  return `about ${(Math.round(minutes / 30) / 2).toString().replace(".5", "½").replace(/^0/, "")} hours`;
}
