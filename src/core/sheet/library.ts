import { type Checked, IssueList } from "../issue/index.ts";
import { type Kind, readKind } from "../part/index.ts";
import { type House, type Library, readHouse } from "./house.ts";
import { readSharedPiece, type SharedPiece } from "./piece.ts";

/**
 * Kinds, houses and shared pieces from the texts of their files.
 *
 * @param kinds   file name → text of `data/kinds/*.yaml`
 * @param houses  file name → text of `data/houses/*.yaml`
 * @param pieces  file name → text of `data/pieces/*.yaml`
 */
export function readLibrary(
  kinds: ReadonlyMap<string, string>,
  houses: ReadonlyMap<string, string>,
  pieces: ReadonlyMap<string, string> = new Map(),
): Checked<Library> {
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
  const readPieces = new Map<string, SharedPiece>();
  for (const [file, text] of pieces) {
    const piece = issues.take(readSharedPiece(text, file));
    if (piece !== undefined) readPieces.set(piece.name, piece);
  }
  return issues.conclude(() => ({ kinds: readKinds, houses: readHouses, pieces: readPieces }));
}
