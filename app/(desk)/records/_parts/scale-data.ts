/** No bar may look like the whole of a picture where all are about right. */
const HIGHEST_MIN = 0.2
const GAP = 0.06

/**
 * Shares as bars, each 1 wide, in a picture 100 high: their outline, and how far down the height lies at which all would be
 * right. Pictures that share a `highest` compare.
 */
export function barsOf(
  shares: readonly number[],
  highest: number,
): { readonly bars: string; readonly right: number } {
  const scale = 100 / Math.max(HIGHEST_MIN, highest)
  const down = (share: number) => (100 - scale * share).toFixed(2)
  return {
    bars: shares.map((share, at) => `M${at + GAP} 100V${down(share)}H${at + 1 - GAP}V100Z`).join(''),
    right: 100 - scale / shares.length,
  }
}
