/** Length, in slots, of the smallest arc of the bore that holds all given slots. */
export function coveringArc(slotsUsed: readonly number[], slots: number): number {
  const sorted = [...new Set(slotsUsed)].sort((a, b) => a - b);
  let widest = 0;
  sorted.forEach((slot, index) => {
    const next = sorted[index + 1] ?? sorted[0]! + slots;
    widest = Math.max(widest, next - slot);
  });
  return slots - widest;
}
