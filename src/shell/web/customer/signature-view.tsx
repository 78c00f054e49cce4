import { useCallback, useEffect, useState } from "react";
import { customerText } from "../english-customer.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** A signature that was kept, by its hash; nothing where it is not on this device. */
export function SignatureView({ hash, who }: { readonly hash: string; readonly who: string | undefined }) {
  const { db } = useApp();
  const blob = useLive(useCallback(() => db.photos.get(hash), [db, hash]))?.blob;
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    if (blob === undefined) return;
    const made = URL.createObjectURL(blob);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [blob]);
  if (address === undefined) return null;
  const says = who === undefined ? customerText.signature : customerText.signatureOf(who);
  return <img src={address} alt={says} className="signature" />;
}
