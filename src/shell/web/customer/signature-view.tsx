import { useCallback } from "react";
import { customerText } from "../english-customer.ts";
import { useBlobAddress } from "../photo/use-blob-address.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** A signature that was kept, by its hash; nothing where it is not on this device. */
export function SignatureView({ hash, who }: { readonly hash: string; readonly who: string | undefined }) {
  const { db } = useApp();
  const blob = useLive(useCallback(() => db.photos.get(hash), [db, hash]))?.blob;
  const address = useBlobAddress(blob);
  if (address === undefined) return null;
  const says = who === undefined ? customerText.signature : customerText.signatureOf(who);
  return <img src={address} alt={says} className="signature" />;
}
