/** One of the page's own scripts; the page's policy lets scripts in by the nonce alone. */
export interface PageScript {
  readonly address: string;
  readonly nonce: string;
}

/** Loads a script; `over` hears when it has run, or cannot be had. */
export function loadScript({ address, nonce }: PageScript, over: () => void): void {
  const script = document.createElement('script');
  script.nonce = nonce;
  script.src = address;
  script.addEventListener('load', over);
  script.addEventListener('error', () => {
    script.remove();
    over();
  });
  document.body.append(script);
}
