export type SvgAttributes = Readonly<Record<string, string | number>>;

/** An SVG element with its attributes. */
export function svgElement(tag: string, attributes: SvgAttributes): SVGElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const name in attributes) element.setAttribute(name, String(attributes[name]));
  return element;
}
