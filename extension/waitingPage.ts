import { pageLanguage } from './wording.ts';

/**
 * The page of a panel that is restored after a reload, until the engine is there to give it its own: words of the
 * extension that say so. It has no script, and the style that the editor gives by its theme.
 */
export function waitingPage(words: string): string {
  return `<!DOCTYPE html>
<html lang="${pageLanguage()}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; base-uri 'none'; form-action 'none'">
<title>Slotwright</title>
</head>
<body><p role="status">${words}</p></body>
</html>`;
}
