import type { Cursor } from "../part/index.ts";
import type { Library } from "./house.ts";
import type { Sheet } from "./sheet.ts";

export function branchFrom(branch: Cursor, _root: Cursor, _library: Library): Sheet | undefined {
  return branch.refuse("sheet.branch", "nothing yet");
}
