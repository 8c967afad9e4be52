/**
 * Numbers of days as bytes: eight each, lowest byte first, the same on every machine.
 * Promise: what is read is to the last bit what was written.
 */

const BYTES = 8

/** The bytes of numbers. */
export function bytesOf(numbers: Float64Array): Uint8Array<ArrayBuffer> {
  const view = new DataView(new ArrayBuffer(numbers.length * BYTES))
  for (const [at, number] of numbers.entries()) view.setFloat64(at * BYTES, number, true)
  return new Uint8Array(view.buffer)
}

/** The numbers of bytes. */
export function numbersOf(bytes: Uint8Array): Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  return Float64Array.from({ length: bytes.length / BYTES }, (_, at) => view.getFloat64(at * BYTES, true))
}
