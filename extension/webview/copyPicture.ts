/** Pixels a millimeter has in a copied picture, where the picture is not too large for that. */
const density = 8;
const mostPixels = 12_000;

/**
 * Puts the whole drawing on the clipboard as a picture, as it would be printed: on white, with all its words.
 * Rejects where the browser does not let it.
 */
export async function copyPicture(svg: SVGSVGElement): Promise<void> {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const [width, height] = ['width', 'height'].map((name) =>
    Number.parseFloat(copy.getAttribute(name) ?? ''),
  ) as [number, number];
  // Presentation attributes alone give the looks on paper; what the page adds are classes, the view, and what it hides.
  copy.setAttribute('viewBox', `0 0 ${width} ${height}`);
  for (const hidden of copy.querySelectorAll('[display]')) hidden.removeAttribute('display');
  const scale = Math.min(density, mostPixels / Math.max(width, height));
  copy.setAttribute('width', String(Math.round(width * scale)));
  copy.setAttribute('height', String(Math.round(height * scale)));
  const text = new XMLSerializer().serializeToString(copy);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [Math.round(width * scale), Math.round(height * scale)];
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('There is no canvas to draw on');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((resolve) => {
    canvas.toBlob(resolve, 'image/png');
  });
  if (blob === null) throw new Error('The picture is too large');
  await copyBlob(blob);
}

/** Puts a picture on the clipboard, once it is there. */
export async function copyBlob(blob: Blob | Promise<Blob>): Promise<void> {
  await navigator.clipboard.write([new ClipboardItem({ 'image/png': blob })]);
}
