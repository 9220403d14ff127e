// Finds square codes in a picture: with the browser's own reader where it has one, else with a library that is only
// loaded then.

interface Reader {
  detect(picture: ImageData | HTMLCanvasElement): Promise<readonly { readonly rawValue: string }[]>
}
interface ReaderMaker {
  new (how: { readonly formats: readonly string[] }): Reader
  getSupportedFormats(): Promise<readonly string[]>
}

let ready: Promise<Reader | null> | undefined

async function ownReader(): Promise<Reader | null> {
  const Own = (globalThis as { readonly BarcodeDetector?: ReaderMaker }).BarcodeDetector
  try {
    if (!Own || !(await Own.getSupportedFormats()).includes('qr_code')) return null
    return new Own({ formats: ['qr_code'] })
  } catch {
    return null
  }
}

const scratch = () => document.createElement('canvas')

/** Texts of the codes in a picture or in the frame that a video shows; none where there is none. */
export async function readCodesIn(
  source: HTMLVideoElement | ImageBitmap,
  canvas: HTMLCanvasElement = scratch(),
): Promise<readonly string[]> {
  const [width, height] =
    source instanceof HTMLVideoElement
      ? [source.videoWidth, source.videoHeight]
      : [source.width, source.height]
  if (width === 0 || height === 0) return []
  // A picture of a modern camera has more points than any code needs.
  const scale = Math.min(1, 1600 / Math.max(width, height))
  canvas.width = Math.round(width * scale)
  canvas.height = Math.round(height * scale)
  const pen = canvas.getContext('2d', { willReadFrequently: true })
  if (!pen) return []
  pen.drawImage(source, 0, 0, canvas.width, canvas.height)
  ready ??= ownReader()
  const own = await ready
  if (own) return (await own.detect(canvas)).map(({ rawValue }) => rawValue)
  const { decodeQR } = await import('qr/decode.js')
  try {
    return [decodeQR(pen.getImageData(0, 0, canvas.width, canvas.height))]
  } catch {
    return []
  }
}
