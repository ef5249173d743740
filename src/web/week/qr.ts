/** An address as a square of dark and light, to be drawn: a phone's camera opens it. */
import encodeQR from 'qr'

export type Square = {
  /** Modules along a side, with the quiet zone of four that ISO/IEC 18004 asks for. */
  readonly side: number
  /** Dark modules as one outline of unit squares. */
  readonly path: string
}

/** A quarter of it may be smudged with clay and it can still be read. */
export function squareOf(text: string): Square {
  const rows = encodeQR(text, 'raw', { ecc: 'quartile', border: 4 })
  const path = rows.flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : []))).join('')
  return { side: rows.length, path }
}
