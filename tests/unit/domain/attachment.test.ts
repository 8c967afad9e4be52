import { describe, expect, it } from 'vitest'
import { attachmentBackInput, attachmentInput, PICTURE_BYTES_MAX } from '#lib/domain/attachment.ts'
import { parse } from '#lib/domain/parse.ts'
import { type Failure, isFailure } from '#lib/kernel/failure.ts'

const NOW = new Date('2026-06-09T12:00:00Z')
const schema = attachmentInput({ zone: 'Europe/London', now: NOW })
const line = { kind: 'radiograph', words: ' left leg ', at: '', picture: new Uint8Array([1]) }

function reasons(input: unknown): unknown {
  try {
    return parse(schema, input)
  } catch (thrown) {
    if (!isFailure(thrown)) throw thrown
    return (thrown as Failure).problems.map(({ field, reason }) => `${field} ${reason}`)
  }
}

describe('a picture that is added', () => {
  it('was taken now where nothing is said, and needs no words', () => {
    expect(reasons(line)).toEqual({ ...line, words: 'left leg', at: NOW })
    expect(reasons({ kind: 'photograph', picture: line.picture })).toMatchObject({ words: '', at: NOW })
  })

  it('needs a file, of a known kind and not too large, taken before now', () => {
    expect(reasons({ ...line, picture: undefined })).toEqual(['picture missing'])
    expect(reasons({ ...line, picture: new Uint8Array(PICTURE_BYTES_MAX + 1) })).toEqual([
      'picture picture-too-large',
    ])
    expect(reasons({ ...line, kind: 'drawing' })).toEqual(['kind not-listed'])
    expect(reasons({ ...line, at: '2026-06-10T09:00' })).toEqual(['at not-happened-yet'])
  })

  it('is taken back with a reason', () => {
    expect(parse(attachmentBackInput, { attachmentId: '3', because: ' another animal ' })).toEqual({
      attachmentId: 3,
      because: 'another animal',
    })
    expect(() => parse(attachmentBackInput, { attachmentId: '3', because: ' ' })).toThrow()
  })
})
