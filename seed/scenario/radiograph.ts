/** Radiographs of the story's animals: drawn, and the words beside them say so. */
import sharp from 'sharp'

/** What a picture shows, by what was wrong with the animal. */
export const SHOWN: Readonly<Record<string, string>> = {
  'humerus-fracture': 'Wing from above, drawn for the demonstration: break in the middle of the humerus',
  'leg-fracture': 'Leg from the side, drawn for the demonstration: closed break of the shank',
}

const [WIDTH, HEIGHT] = [1200, 900]
/** How far the far piece of the bone has moved, and how it is tilted. */
const BREAKS: Readonly<Record<string, { readonly down: number; readonly tilt: number }>> = {
  'humerus-fracture': { down: 46, tilt: 17 },
  'leg-fracture': { down: 14, tilt: 5 },
}

/** The drawing as a PNG. */
export async function drawRadiograph(condition: string): Promise<Buffer> {
  const { down, tilt } = BREAKS[condition] ?? { down: 0, tilt: 0 }
  const shaft = (from: number, to: number, y: number) => `
    <path d="M${from} ${y - 26}L${to} ${y - 22}L${to} ${y + 22}L${from} ${y + 26}Z" fill="#9aa3ab"/>
    <path d="M${from} ${y}L${to} ${y}" stroke="#5b636b" stroke-width="22"/>`
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}">
    <rect width="${WIDTH}" height="${HEIGHT}" fill="#0c0f12"/>
    <ellipse cx="600" cy="450" rx="520" ry="190" fill="#22282e"/>
    <circle cx="190" cy="440" r="52" fill="#aab3bb"/>${shaft(200, 590, 440)}
    <g transform="translate(0 ${down}) rotate(${tilt} 620 440)">
      ${shaft(622, 1000, 440)}<circle cx="1012" cy="440" r="46" fill="#aab3bb"/>
    </g>
  </svg>`
  return sharp(Buffer.from(svg)).png().toBuffer()
}
