import { useId, useState } from "react";
import { text } from "../english.ts";
import { useApp } from "../shell/app-state.tsx";
import { canKeepPhotos, hashOf, shrinkPhoto } from "./shrink-photo.ts";

/** Takes a photo, or a picture from the device, and attaches it to a job: at which step is told with it. */
export function PhotoKey({ job, at }: { readonly job: string; readonly at?: string }) {
  const { ledger } = useApp();
  const [said, setSaid] = useState("");
  const id = useId();
  const words = text.photo;
  if (!canKeepPhotos()) return <p className="faint">{words.notHere}</p>;
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setSaid(words.keeping);
    try {
      const blob = await shrinkPhoto(file);
      await ledger.attach(job, { hash: await hashOf(blob), blob }, at);
      setSaid(words.kept);
    } catch (error) {
      setSaid(`${text.failed} ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  return (
    <p>
      <label htmlFor={id} className="line-key photo-key">
        {words.take}
      </label>
      <input
        id={id}
        className="unseen"
        type="file"
        accept="image/*"
        onChange={(event) => {
          take(event.currentTarget.files?.[0]);
          event.currentTarget.value = "";
        }}
      />
      <span role="status" className="faint">
        {said}
      </span>
    </p>
  );
}
