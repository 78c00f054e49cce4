import { useCallback } from "react";
import { text } from "../english.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";
import { useBlobAddress } from "./use-blob-address.ts";

/** A photo of a job, small; pressed, it opens whole. */
export function PhotoView({ hash, at }: { readonly hash: string; readonly at: string | undefined }) {
  const { db } = useApp();
  const photo = useLive(useCallback(async () => (await db.photos.get(hash)) ?? "missing", [db, hash]));
  const blob = typeof photo === "object" ? photo.blob : undefined;
  const address = useBlobAddress(blob);
  const says = at === undefined ? text.photo.plain : text.photo.at(at);
  if (photo === "missing") return <span className="faint">{text.photo.missing(says)}</span>;
  if (address === undefined) return null;
  return (
    <a href={address} target="_blank" rel="noreferrer">
      <img src={address} alt={says} className="photo" />
    </a>
  );
}
