import { dutyFor, lifeOf, readDuties, readLives, repairLimit } from "../../src/core/choice/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { readShelf, shelfAfter, toOrder } from "../../src/core/shelf/index.ts";
import { textsIn } from "../house/forms.ts";
import { type Form, hold } from "./form.ts";

const demoShop = readShop([...textsIn("data/costs").values()][0] ?? "", "demo-shop");

const shelf: Form = {
  name: "shelf",
  files: textsIn("data/shelves"),
  weight: 2,
  judge: (text, file) => {
    const read = readShelf(text, file);
    if (!read.ok) return { refused: read.issues };
    const { shelf } = shelfAfter(read.value, []);
    hold(
      shelf.items.every(({ count, least }) => Number.isInteger(count) && count >= 0 && least >= 0),
      "a count below nothing",
    );
    const orders = toOrder(shelf, []);
    hold(
      orders.every(({ count }) => count > 0),
      "an order of nothing",
    );
    return { told: [shelf, orders] };
  },
};

const lives: Form = {
  name: "lives",
  files: textsIn("data/lives"),
  weight: 1,
  judge: (text, file) => {
    const read = readLives(text, file);
    if (!read.ok) return { refused: read.issues };
    if (!demoShop.ok) throw new Error("the shipped costs are not read");
    const { upTo, perYear } = repairLimit(demoShop.value, lifeOf(read.value, "dishwasher", "DE"), 7);
    hold(upTo >= 0 && upTo <= demoShop.value.newMachine && perYear > 0, `a repair worth ${upTo}`);
    return { told: [upTo, perYear] };
  },
};

const duties: Form = {
  name: "duties",
  files: textsIn("data/duties"),
  weight: 1,
  judge: (text, file) => {
    const read = readDuties(text, file);
    if (!read.ok) return { refused: read.issues };
    const model = { country: "DE", date: "2030-02-28", ageYears: 5, lastUnit: "2024-02-29" };
    return { told: ["dishwasher", "tumble-dryer"].map((sheet) => dutyFor(read.value, "heater", { ...model, sheet })) };
  },
};

/** What people write of stock, service lives and spare-part duties. */
export const moneyForms: readonly Form[] = [shelf, lives, duties];
