// The part of the package dxf that the tests read with.
declare module 'dxf' {
  interface Entity {
    readonly type: string;
    readonly layer: string;
    readonly string?: string;
    readonly x?: number;
    readonly y?: number;
    readonly x2?: number;
    readonly block?: string;
    readonly lineWeight?: number;
  }

  interface Parsed {
    readonly header: { readonly insUnits: number; readonly measurement: number };
    readonly entities: readonly Entity[];
    readonly blocks: readonly { readonly name: string; readonly entities: readonly Entity[] }[];
    readonly tables: {
      readonly layers: Readonly<
        Record<string, { readonly lineTypeName: string; readonly lineWeightEnum: string }>
      >;
      readonly ltypes: Readonly<Record<string, { readonly pattern: readonly { readonly length: number }[] }>>;
      readonly styles: Readonly<Record<string, { readonly primaryFontFileName?: string }>>;
    };
  }

  const dxf: { parseString(text: string): Parsed };
  // biome-ignore lint/style/noDefaultExport: the package is one object.
  export default dxf;
}
