// The part of papaparse that tables use. Its own types would bring the globals of Node into the core.
declare module 'papaparse' {
  type Cell = string | number | null;

  interface Papaparse {
    unparse(
      rows: readonly (readonly Cell[])[],
      options: { readonly newline: string; readonly escapeFormulae: boolean | RegExp },
    ): string;
    parse(
      text: string,
      options: { readonly delimiter: string; readonly skipEmptyLines: false },
    ): {
      readonly data: readonly (readonly string[])[];
      readonly errors: readonly { readonly code: string; readonly row?: number }[];
    };
  }

  const papaparse: Papaparse;
  // biome-ignore lint/style/noDefaultExport: the package has no other.
  export default papaparse;
}
