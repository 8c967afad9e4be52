import jsqr from 'jsqr'
import { isValidElement, type ReactElement } from 'react'
import { expect, it } from 'vitest'
import { QrCode } from '#app/_ui/qr.tsx'

const PIXELS = 4

/** The drawing as a phone's camera would have it: RGBA, black on white. */
function pictureOf(text: string): { readonly pixels: Uint8ClampedArray; readonly width: number } {
  const { viewBox, children } = QrCode({ text, label: 'x' }).props
  const path = (children as ReactElement<{ d?: string }>[]).find(
    one => isValidElement(one) && one.type === 'path',
  )
  const size = Number(String(viewBox).split(' ')[2])
  const width = size * PIXELS
  const pixels = new Uint8ClampedArray(width * width * 4).fill(255)
  for (const [, x, y] of (path?.props.d ?? '').matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
    for (let dy = 0; dy < PIXELS; dy++) {
      for (let dx = 0; dx < PIXELS; dx++) {
        const at = ((Number(y) * PIXELS + dy) * width + Number(x) * PIXELS + dx) * 4
        pixels.fill(0, at, at + 3)
      }
    }
  }
  return { pixels, width }
}

// jsQR is another program than the one that draws: what it reads is what a phone reads.
it.each([
  'https://desk.example.org/casualties/Marram%2013',
  'http://localhost:3000/casualties/Honeysuckle%20996',
])('a phone reads %s back', text => {
  const { pixels, width } = pictureOf(text)
  const read = (typeof jsqr === 'function' ? jsqr : (jsqr as { default: typeof jsqr }).default)(
    pixels,
    width,
    width,
  )
  expect(read?.data).toBe(text)
})
