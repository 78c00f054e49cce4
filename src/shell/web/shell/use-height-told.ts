import { type RefCallback, useCallback } from "react";

/**
 * Tells the style sheets how high an element is, as a property of the document, for as long as it is there: what is fixed
 * to the foot of the screen stands on what is fixed below it, whatever the size of the text.
 *
 * @param name  of the property, as "--feet"
 */
export function useHeightTold(name: string): RefCallback<HTMLElement> {
  return useCallback(
    (element: HTMLElement | null) => {
      if (element === null) return;
      const { style } = document.documentElement;
      const seen = new ResizeObserver(() => style.setProperty(name, `${element.offsetHeight}px`));
      seen.observe(element);
      return () => {
        seen.disconnect();
        style.removeProperty(name);
      };
    },
    [name],
  );
}
