/**
 * Two letters of a country and its three.
 *
 * @source ISO 3166-1, alpha-2 and alpha-3 codes (from memory): Europe, and a few more
 */
const THREE =
  "AD AND AL ALB AT AUT AU AUS BA BIH BE BEL BG BGR BY BLR CA CAN CH CHE CY CYP CZ CZE DE DEU DK DNK EE EST ES ESP FI FIN FO FRO FR FRA GB GBR GG GGY GI GIB GR GRC HR HRV HU HUN IE IRL IM IMN IN IND IS ISL IT ITA JE JEY JP JPN LI LIE LT LTU LU LUX LV LVA MC MCO MD MDA ME MNE MK MKD MT MLT NL NLD NO NOR NZ NZL PL POL PT PRT RO ROU RS SRB SE SWE SI SVN SK SVK SM SMR TR TUR UA UKR US USA XK XKX ZA ZAF".split(
    " ",
  );
const COUNTRIES: ReadonlyMap<string, string> = new Map(
  THREE.flatMap((code, at) => (at % 2 === 0 ? [[code, THREE[at + 1] ?? ""] as const] : [])),
);

/** The three letters of a country given by its two; undefined for one this list does not hold. */
export function countryOfThree(two: string): string | undefined {
  return COUNTRIES.get(two);
}
