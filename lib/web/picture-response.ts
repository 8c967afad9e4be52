/** A picture as an answer: its rights are asked each time, its bytes sent once. */
import 'server-only'
import { z } from 'zod'
import { IMAGE_SIZES, type ImageSize } from '#lib/domain/attachment.ts'
import { idInput } from '#lib/domain/record.ts'
import { Failure } from '#lib/kernel/failure.ts'

const asked = z.object({ id: idInput, size: z.enum(IMAGE_SIZES) })

type Params = Readonly<Record<string, string>>
type Read = (id: number, size: ImageSize) => Promise<Uint8Array<ArrayBuffer>>

/** Reads it, and sends the bytes unless this browser has them: what a picture shows never changes. */
export async function pictureResponse(request: Request, params: Params, read: Read): Promise<Response> {
  const { success, data } = asked.safeParse(params)
  // An address that names no picture is nothing here.
  if (!success) throw new Failure('not-found')
  const { id, size } = data
  const bytes = await read(id, size)
  const etag = `"${id}-${size}"`
  const headers = { 'content-type': 'image/webp', 'cache-control': 'private, no-cache', etag }
  if (request.headers.get('if-none-match') === etag) return new Response(null, { status: 304, headers })
  return new Response(bytes, { headers })
}
