// The part of pdfkit that the drawings use. Its own types would bring the globals of Node into the core.
declare module 'pdfkit' {
  interface DocumentOptions {
    readonly autoFirstPage: false;
    readonly font: null;
    readonly pdfVersion: '1.7';
    readonly lang: string;
    readonly displayTitle: true;
    /** A string, or a String object where XMP needs another spelling. */
    readonly info: Readonly<Record<string, object | string>>;
  }

  interface TextOptions {
    readonly lineBreak: false;
    readonly baseline: 'alphabetic';
    readonly fill: boolean;
    readonly stroke: boolean;
    /** Percent. */
    readonly horizontalScaling: number;
  }

  export class PDFDocument {
    constructor(options: DocumentOptions);
    readonly outline: { addItem(title: string): unknown };
    on(event: 'data', listener: (bytes: Uint8Array) => void): this;
    on(event: 'end', listener: () => void): this;
    addPage(options: { size: readonly [number, number]; margin: 0; userUnit: number }): this;
    registerFont(name: string, bytes: Uint8Array): this;
    font(name: string): this;
    fontSize(size: number): this;
    text(words: string, x: number, y: number, options: TextOptions): this;
    markContent(tag: 'Span', options: { actual: string }): this;
    endMarkedContent(): this;
    save(): this;
    restore(): this;
    scale(factor: number): this;
    rotate(degrees: number, options: { origin: readonly [number, number] }): this;
    opacity(opacity: number): this;
    fillOpacity(opacity: number): this;
    lineJoin(join: 'round'): this;
    lineWidth(width: number): this;
    dash(lengths: readonly number[]): this;
    undash(): this;
    strokeColor(color: string): this;
    fillColor(color: string): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    closePath(): this;
    circle(x: number, y: number, radius: number): this;
    /** Radians, clockwise on paper unless told otherwise. */
    arc(x: number, y: number, radius: number, from: number, to: number, anticlockwise: boolean): this;
    stroke(): this;
    fill(): this;
    fillAndStroke(): this;
    end(): void;
  }
}
