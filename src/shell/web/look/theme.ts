import { createTheme, type MantineColorsTuple } from "@mantine/core";

/** One ink colour for what can be pressed; nothing is told by colour alone. */
const petrol: MantineColorsTuple = [
  "#e6f1f3",
  "#cfe2e6",
  "#a2c7ce",
  "#70abb6",
  "#4992a0",
  "#2f7f8f",
  "#1f6b7a",
  "#175a67",
  "#124a55",
  "#0c3942",
];

export const theme = createTheme({
  colors: { petrol },
  primaryColor: "petrol",
  primaryShade: { light: 8, dark: 7 },
  autoContrast: true,
  defaultRadius: 2,
  fontFamily: '"Segoe UI", system-ui, "DejaVu Sans", sans-serif',
});
