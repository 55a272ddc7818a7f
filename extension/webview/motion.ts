/** Whether the reader asked for less motion, in the editor or in the system. */
export function wantsLessMotion(): boolean {
  return (
    document.body.classList.contains('vscode-reduce-motion') ||
    window.matchMedia('(prefers-reduced-motion: reduce)').matches
  );
}
