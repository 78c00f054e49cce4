// The part of the PDF library that is used; it ships no types of its own.
declare module "pdfmake" {
  interface PdfMaker {
    setFonts(fonts: Readonly<Record<string, Readonly<Record<string, string>>>>): void;
    setLocalAccessPolicy(may: (path: string) => boolean): void;
    setUrlAccessPolicy(may: (url: string) => boolean): void;
    /** The files that a browser has none of its own for. */
    readonly virtualfs: { writeFileSync(name: string, content: Uint8Array): void };
    createPdf(definition: object): { getBuffer(): Promise<Uint8Array> };
  }
  const maker: PdfMaker;
  export default maker;
}
