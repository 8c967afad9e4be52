/**
 * Small symmetric positive definite systems, as regressions give them.
 * Promise: exact to rounding for matrices that are well conditioned; one that is not positive definite is refused, not
 * solved to nonsense. Method: Cholesky, without pivoting (Golub and Van Loan, Matrix Computations, section 4.2, from memory).
 */

/** A square matrix by rows. */
export type Matrix = readonly Float64Array[]

/**
 * The lower factor L of A = L L'. Only A's lower triangle is read.
 * Throws RangeError where A is not positive definite.
 */
export function choleskyOf(a: Matrix): Float64Array[] {
  const n = a.length
  const lower = a.map(() => new Float64Array(n))
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = a[i]![j]!
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!
      if (i > j) lower[i]![j] = rest / lower[j]![j]!
      else if (rest > 0) lower[i]![i] = Math.sqrt(rest)
      else throw new RangeError(`matrix needs to be positive definite, row ${i} leaves ${rest}`)
    }
  }
  return lower
}

/** x with A x = b, from A's lower factor. */
export function solveBy(lower: Matrix, b: Float64Array): Float64Array {
  const n = lower.length
  const x = b.slice()
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] = x[i]! - lower[i]![k]! * x[k]!
    x[i] = x[i]! / lower[i]![i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] = x[i]! - lower[k]![i]! * x[k]!
    x[i] = x[i]! / lower[i]![i]!
  }
  return x
}

/** The inverse of A, from its lower factor. */
export function inverseBy(lower: Matrix): Float64Array[] {
  return lower.map((_, at) =>
    solveBy(
      lower,
      Float64Array.from(lower, (_, i) => Number(i === at)),
    ),
  )
}
