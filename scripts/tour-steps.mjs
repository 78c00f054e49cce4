// What every way through the app is made of.

/** The engine may have a family to work out the first time. */
export const slow = { timeout: 90_000 };

/** A step that is gone even when its own picture is not wanted. */
export const always = (go) => Object.assign(go, { always: true });

export const home = async (page) => {
  await page.goto(`${page.url().split("#")[0]}#/`);
};
