import { liveQuery } from "dexie";
import { useEffect, useState } from "react";

/**
 * What a query of the store gives now, and again whenever any tab changes what it read; undefined until it first answers.
 *
 * @param query  a function that stays the same between renders (`useCallback`, or one of the module)
 */
export function useLive<T>(query: () => Promise<T>): T | undefined {
  const [found, setFound] = useState<T>();
  useEffect(() => {
    const watching = liveQuery(query).subscribe({ next: setFound, error: (error) => console.error(error) });
    return () => watching.unsubscribe();
  }, [query]);
  return found;
}
