import { type Checked, IssueList } from "../issue/index.ts";
import { type Kind, readKind } from "../part/index.ts";
import { type House, type Library, readHouse } from "./house.ts";

/**
 * Kinds and houses from the texts of their files.
 *
 * @param kinds   file name → text of `data/kinds/*.yaml`
 * @param houses  file name → text of `data/houses/*.yaml`
 */
export function readLibrary(kinds: ReadonlyMap<string, string>, houses: ReadonlyMap<string, string>): Checked<Library> {
  const issues = new IssueList();
  const readKinds = new Map<string, Kind>();
  for (const [file, text] of kinds) {
    const kind = issues.take(readKind(text, file));
    if (kind !== undefined) readKinds.set(kind.id, kind);
  }
  const readHouses = new Map<string, House>();
  for (const [file, text] of houses) {
    const house = issues.take(readHouse(text, file));
    if (house !== undefined) readHouses.set(house.name, house);
  }
  return issues.conclude(() => ({ kinds: readKinds, houses: readHouses }));
}
