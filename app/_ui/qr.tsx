import { encode } from 'uqr'

type Props = {
  /** What a phone reads. */
  readonly text: string
  /** What it leads to, for who does not see it. */
  readonly label: string
}

/** Light squares around it, without which a phone does not find it (ISO/IEC 18004 asks for four). */
const QUIET = 4

/** A QR code as one path: black on white in every scheme, sharp at every size. */
export function QrCode({ text, label }: Props) {
  const { data, size } = encode(text, { ecc: 'M', border: QUIET })
  const squares = data.flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : [])))
  return (
    <svg
      className="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={squares.join('')} fill="#000" />
    </svg>
  )
}
