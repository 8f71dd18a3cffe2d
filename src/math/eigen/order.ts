/**
 * Sorts eigenvalues by falling real part, then rising |imaginary part|, and keeps complex pairs together.
 *
 * Pairs must be neighbours with the positive imaginary part first, as the QR iteration leaves them. Equal ones keep
 * their order, so the result depends on the numbers alone.
 *
 * @param re  real parts, shape (n), sorted in place
 * @param im  imaginary parts, shape (n), sorted in place
 * @param n   how many
 * @source own: insertion sort of units of one or two
 * @verified order.test.ts: permutation, order, adjacency of equal pairs
 * @cost O(n²) at worst, no allocation
 */
export function sortEigenvalues(re: Float64Array, im: Float64Array, n: number): void {
  let width = 1;
  for (let next = 0; next < n; next += width) {
    const real = re[next]!;
    const imaginary = im[next]!;
    width = imaginary === 0 ? 1 : 2;
    let place = next;
    while (place > 0 && belongsBefore(real, imaginary, re[place - 1]!, im[place - 1]!)) {
      const moved = im[place - 1] === 0 ? 1 : 2;
      place -= moved;
      for (let i = place + moved - 1; i >= place; i--) {
        re[i + width] = re[i]!;
        im[i + width] = im[i]!;
      }
    }
    re[place] = real;
    im[place] = imaginary;
    if (width === 2) {
      re[place + 1] = real;
      im[place + 1] = -imaginary;
    }
  }
}

function belongsBefore(real: number, imaginary: number, otherReal: number, otherImaginary: number): boolean {
  return real > otherReal || (real === otherReal && Math.abs(imaginary) < Math.abs(otherImaginary));
}
