// What is loaded only when a drawing is written to a file: the entry of a bundle of its own.
export { dxfSteps, pictureToDxf } from './dxf/writeDxf.ts';
export { pictureToPdf } from './pdf/writePdf.ts';
