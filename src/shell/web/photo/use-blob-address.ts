import { useEffect, useState } from "react";

/** An address under which the page shows a blob, given back when it is shown no longer; undefined where there is none. */
export function useBlobAddress(blob: Blob | undefined): string | undefined {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    if (blob === undefined) return;
    const made = URL.createObjectURL(blob);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [blob]);
  return address;
}
