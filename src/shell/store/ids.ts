/**
 * A new id that sorts by the time it was made (UUIDv7, RFC 9562 5.7). Works where `crypto.randomUUID` does not: a page
 * served over plain http has only `getRandomValues`.
 */
function newId(now: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(now / 2 ** (8 * (5 - i))) % 256;
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

let last = "";

/** A new id that also sorts after every other made here, however fast they are made or the clock is set back. */
export function nextId(now: number = Date.now()): string {
  let id = newId(now);
  if (last !== "" && id <= last) {
    const stamp = Number.parseInt(last.replaceAll("-", "").slice(0, 12), 16);
    id = newId(stamp + 1);
  }
  last = id;
  return id;
}
