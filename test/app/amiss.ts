import axe from "axe-core";
import type { Page } from "playwright-core";

/** Elements that scroll sideways by themselves, or are told whole elsewhere: a line cut with dots, words for ears. */
const APART =
  ".branch, .branch-row svg, .rounds, .whole, .one-line, .faults-line, .job-line, .unseen, .bands svg, .scale svg";

/** The themes as the page wears them: its own, and the scheme of the components. */
const THEMES = [
  ["light", "light"],
  ["dark", "dark"],
  ["contrast", "light"],
] as const;

/**
 * What a screen does wrong: against WCAG 2.2 A and AA as axe finds it in each theme (theme, rule and element), and with
 * text twice as large (WCAG 2.2, 1.4.4) what leaves the screen at its side.
 */
export async function amiss(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const rules: string[] = await page.evaluate(`(async () => {
    const root = document.documentElement;
    const worn = [root.dataset.theme, root.dataset.mantineColorScheme];
    const wear = async ([theme, scheme]) => {
      root.dataset.theme = theme;
      root.dataset.mantineColorScheme = scheme;
      await new Promise((resolve) => setTimeout(resolve, 200));
    };
    const found = [];
    for (const theme of ${JSON.stringify(THEMES)}) {
      await wear(theme);
      const { violations } = await axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] });
      for (const { id, nodes } of violations) {
        for (const { target } of nodes) found.push(theme[0] + ": " + id + " " + target.join(" "));
      }
    }
    await wear(worn);
    return found;
  })()`);
  const large: string[] = await page.evaluate(`(async () => {
    document.documentElement.style.fontSize = "200%";
    await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    const wide = innerWidth + 1;
    const found = document.scrollingElement.scrollWidth > wide ? ["the page scrolls sideways"] : [];
    for (const one of document.querySelectorAll("body *")) {
      if (one.closest(${JSON.stringify(APART)}) !== null) continue;
      const { left, right, width } = one.getBoundingClientRect();
      const hidden = getComputedStyle(one).visibility === "hidden";
      if (width > 0 && !hidden && (right > wide || left < -1)) {
        found.push("twice as large: " + one.tagName + "." + one.className + " " + one.textContent.slice(0, 40));
      }
    }
    document.documentElement.style.fontSize = "";
    return found.slice(0, 5);
  })()`);
  return [...rules, ...large];
}
