/** Cholesky's method for small dense, symmetric, positive definite matrices, row by row. */

/** Lower triangular. */
export type Factor = readonly Float64Array[];

/**
 * The lower triangular L with L Lᵀ = A.
 * @throws RangeError when A isn't positive definite.
 */
export function factorOf(a: readonly ArrayLike<number>[]): Factor {
  const l: Float64Array[] = [];
  for (let i = 0; i < a.length; i++) {
    const row = new Float64Array(a.length);
    l.push(row);
    for (let j = 0; j <= i; j++) {
      const other = l[j]!;
      let sum = a[i]![j]!;
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!;
      if (i === j) {
        if (!(sum > 0)) throw new RangeError('the matrix is not positive definite');
        row[i] = Math.sqrt(sum);
      } else row[j] = sum / other[j]!;
    }
  }
  return l;
}

/** L⁻¹ b: turns errors with the covariance L Lᵀ into independent ones of standard deviation 1. */
export function whiten(l: Factor, b: readonly number[]): number[] {
  const y: number[] = [];
  for (let i = 0; i < b.length; i++) {
    const row = l[i]!;
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= row[k]! * y[k]!;
    y.push(sum / row[i]!);
  }
  return y;
}

/** x with L Lᵀ x = b. */
export function solveFactored(l: Factor, b: readonly number[]): number[] {
  const y = whiten(l, b);
  const x = new Array<number>(b.length).fill(0);
  for (let i = b.length - 1; i >= 0; i--) {
    let sum = y[i]!;
    for (let k = i + 1; k < b.length; k++) sum -= l[k]![i]! * x[k]!;
    x[i] = sum / l[i]![i]!;
  }
  return x;
}

export function inverseOf(l: Factor): number[][] {
  return l.map((_, i) =>
    solveFactored(
      l,
      l.map((__, j) => (i === j ? 1 : 0)),
    ),
  );
}
