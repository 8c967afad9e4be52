/**
 * The cheapest way to do so many multiply-adds in this language: one row added to another in the first cache, the
 * shape that a convolution has, without any of its bookkeeping.
 */
const ROW = 180

/** Does at least so many multiply-adds and returns a number that depends on all of them. */
export function bareLoop(multiplyAdds: number): number {
  const row = new Float64Array(ROW).fill(1 / ROW)
  const sum = new Float64Array(ROW)
  let done = 0
  for (let i = 0; done < multiplyAdds; i++) {
    const weight = row[i % ROW]!
    for (let j = 0; j < ROW; j++) sum[j] = sum[j]! + weight * row[j]!
    done += ROW
  }
  return sum[0]!
}
