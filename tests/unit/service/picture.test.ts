/**
 * What is kept of a picture. The bytes of the container are checked against the WebP Container Specification (Google,
 * developers.google.com/speed/webp/docs/riff_container; from memory): "RIFF", a size, "WEBP", then chunks of a name of
 * four letters and a size; EXIF and XMP are chunks of their own.
 */
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { isFailure } from '#lib/kernel/failure.ts'
import { digestOf, imagesOf } from '#lib/service/picture.ts'

const FLAT = { create: { width: 900, height: 400, channels: 3, background: '#345678' } } as const
const CAMERA = {
  IFD0: { Make: 'Invented', Model: 'Camera' },
  IFD3: {
    GPSLatitudeRef: 'N',
    GPSLatitude: '54/1 30/1 0/1',
    GPSLongitudeRef: 'W',
    GPSLongitude: '3/1 0/1 0/1',
  },
}

function chunksOf(bytes: Uint8Array): string[] {
  const names: string[] = []
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  for (let at = 12; at + 8 <= bytes.length; ) {
    names.push(String.fromCharCode(...bytes.subarray(at, at + 4)))
    const size = view.getUint32(at + 4, true)
    at += 8 + size + (size % 2)
  }
  return names
}

const reasonOf = (sent: Uint8Array) =>
  imagesOf(sent, 'photograph').then(
    () => 'kept',
    thrown => (isFailure(thrown) ? [thrown.code, thrown.rule, thrown.field].join(' ') : String(thrown)),
  )

describe('a picture that was sent', () => {
  it.each(['jpeg', 'png', 'webp'] as const)('is made anew from %s, in two sizes', async format => {
    const sent = await sharp(FLAT).resize(3000, 2000).toFormat(format).toBuffer()
    const images = await imagesOf(sent, 'radiograph')
    expect(images.map(({ size, width, height }) => [size, width, height])).toEqual([
      ['whole', 2400, 1600],
      ['thumbnail', 320, 213],
    ])
    for (const { bytes } of images) {
      expect(Buffer.from(bytes.subarray(0, 4)).toString()).toBe('RIFF')
      expect(Buffer.from(bytes.subarray(8, 12)).toString()).toBe('WEBP')
    }
  })

  it('keeps nothing of where it was taken and with what, and stands upright', async () => {
    const sent = await sharp(FLAT).withExif(CAMERA).withMetadata({ orientation: 6 }).jpeg().toBuffer()
    const before = await sharp(sent).metadata()
    expect(before.exif?.includes('Invented')).toBe(true)
    for (const { bytes, width, height } of await imagesOf(sent, 'photograph')) {
      expect(height).toBeGreaterThan(width)
      expect(chunksOf(bytes).filter(name => ['EXIF', 'XMP ', 'ICCP'].includes(name))).toEqual([])
      expect(Buffer.from(bytes).includes('Invented')).toBe(false)
      expect((await sharp(bytes).metadata()).orientation).toBeUndefined()
    }
  })

  it('is not made larger', async () => {
    const sent = await sharp(FLAT).resize(120, 80).png().toBuffer()
    const sizes = (await imagesOf(sent, 'photograph')).map(({ width, height }) => [width, height])
    expect(sizes).toEqual([
      [120, 80],
      [120, 80],
    ])
  })

  it('keeps a hairline of a radiograph', async () => {
    const line = Buffer.from(
      '<svg xmlns="http://www.w3.org/2000/svg" width="600" height="600"><rect width="600" height="600"/><path d="M0 300h600" stroke="#ccc" stroke-width="2"/></svg>',
    )
    const sent = await sharp(line).png().toBuffer()
    const [whole] = await imagesOf(sent, 'radiograph')
    const { data } = await sharp(whole!.bytes).greyscale().raw().toBuffer({ resolveWithObject: true })
    const [on, off] = [data[300 * 600 + 300]!, data[280 * 600 + 300]!]
    expect(on - off).toBeGreaterThan(100)
  })

  it.each([
    ['a GIF', () => sharp(FLAT).gif().toBuffer()],
    ['an SVG', async () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>')],
    ['a TIFF', () => sharp(FLAT).tiff().toBuffer()],
  ])('is refused when it is %s, whatever it is called', async (_, make) => {
    expect(await reasonOf(await make())).toBe('invalid picture-not-known picture')
  })

  it.each([
    ['words', async () => Buffer.from('no picture at all')],
    ['half a JPEG', async () => (await sharp(FLAT).jpeg().toBuffer()).subarray(0, 600)],
    [
      'a small file of very many pixels',
      () =>
        sharp({ create: { ...FLAT.create, width: 9000, height: 9000 } })
          .png()
          .toBuffer(),
    ],
  ])('is refused when it is %s', async (_, make) => {
    expect(await reasonOf(await make())).toBe('invalid picture-unreadable picture')
  })

  it('is told from another by its bytes', () => {
    // SHA-256 of "abc": FIPS 180-2, appendix B.1.
    expect(digestOf(Buffer.from('abc'))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    )
  })
})
