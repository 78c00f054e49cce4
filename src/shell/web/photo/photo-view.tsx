import { useCallback, useEffect, useState } from "react";
import { text } from "../english.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** A photo of a job, small; pressed, it opens whole. */
export function PhotoView({ hash, at }: { readonly hash: string; readonly at: string | undefined }) {
  const { db } = useApp();
  const photo = useLive(useCallback(async () => (await db.photos.get(hash)) ?? "missing", [db, hash]));
  const [address, setAddress] = useState<string>();
  const blob = typeof photo === "object" ? photo.blob : undefined;
  useEffect(() => {
    if (blob === undefined) return;
    const made = URL.createObjectURL(blob);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [blob]);
  const says = at === undefined ? text.photo.plain : text.photo.at(at);
  if (photo === "missing") return <span className="faint">{text.photo.missing(says)}</span>;
  if (address === undefined) return null;
  return (
    <a href={address} target="_blank" rel="noreferrer">
      <img src={address} alt={says} className="photo" />
    </a>
  );
}
