/** Longest side kept, in pixels: a connector's print is still to be read. */
const LONGEST_SIDE = 1600;
const QUALITY = 0.8;

/** May photos be kept here? Their names are hashes, which a page over plain http cannot make. */
export const canKeepPhotos = (): boolean => globalThis.crypto?.subtle !== undefined;

/**
 * A picture drawn anew, upright and no larger than needed. Nothing of the file is taken over but its colours, so that
 * where and when it was taken, and with which camera, is gone.
 *
 * @throws where the file is no picture that this browser can read
 */
export async function shrinkPhoto(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
  if (drawn === null) throw new Error("the picture could not be drawn anew");
  return drawn;
}

/** SHA-256 of what a blob holds, in hexadecimal: its name. */
export async function hashOf(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", await blob.arrayBuffer()));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
