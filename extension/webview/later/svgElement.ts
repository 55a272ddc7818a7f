/** An element of a drawing with its attributes. */
export function svgElement(name: string, attributes: Readonly<Record<string, string>>): SVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
