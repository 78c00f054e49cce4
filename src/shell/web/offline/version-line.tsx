import { Button } from "@mantine/core";
import { useEffect, useState } from "react";
import { text } from "../english.ts";
import { canKeepOffline, onNewVersion } from "./keep-offline.ts";

/** One line at the top when a new build stands ready, or when this page cannot be kept for use without a signal. */
export function VersionLine() {
  const [takeIt, setTakeIt] = useState<() => void>();
  useEffect(() => onNewVersion((take) => setTakeIt(() => take)), []);
  if (takeIt !== undefined) {
    return (
      <p className="notice" role="status">
        {text.offline.newVersion} <Button onClick={takeIt}>{text.offline.takeIt}</Button>
      </p>
    );
  }
  return canKeepOffline() ? null : <p className="notice">{text.offline.noWorker}</p>;
}
