import { useCallback, useEffect, useRef, useState } from 'react'
import type { Carried, Codes } from '../../app/state.ts'
import { useActions } from '../app.ts'
import { go } from '../shell/route.ts'
import { CarriedJob } from './carried-job.tsx'
import { readCodesIn } from './read-code.ts'

/** Milliseconds between two looks through the camera. */
const pause = 150

const noCamera = (error: unknown): string => {
  const name = error instanceof DOMException ? error.name : ''
  if (name === 'NotAllowedError')
    return 'The camera was not allowed. Allow it for this site in the browser, or take pictures of the codes and choose them below.'
  return 'No camera can be used here (browsers give it to https addresses and to localhost only). Take pictures of the codes and choose them below.'
}

/** Codes from another device, through the camera or from pictures, until one job is whole. */
export function Receive({ onDone }: { readonly onDone: () => void }) {
  const { withCode, lookAtCodes } = useActions()
  const [codes, setCodes] = useState<Codes | null>(null)
  const [carried, setCarried] = useState<Carried | null>(null)
  const [said, setSaid] = useState<readonly string[]>([])
  const [camera, setCamera] = useState(false)
  const pictures = useRef<HTMLInputElement>(null)
  const latest = useRef<Codes | null>(null)

  const take = useCallback(
    async (texts: readonly string[]) => {
      for (const text of texts) {
        const next = withCode(latest.current, text)
        if (!next.ok) {
          setSaid(next.problems.map((problem) => problem.text))
          continue
        }
        latest.current = next.value
        setCodes(next.value)
        if (next.value.read.size < next.value.of) continue
        setCamera(false)
        const looked = await lookAtCodes(next.value)
        latest.current = null
        if (looked.ok) {
          setCarried(looked.value)
          setSaid([])
        } else {
          setCodes(null)
          setSaid(looked.problems.map((problem) => problem.text))
        }
      }
    },
    [withCode, lookAtCodes],
  )

  const fromPictures = async (files: FileList | null) => {
    setSaid([])
    for (const file of files ?? []) {
      try {
        const picture = await createImageBitmap(file)
        const found = await readCodesIn(picture)
        picture.close()
        if (found.length > 0) await take(found)
        else
          setSaid((old) => [
            ...old,
            `There is no code to be read in ${file.name}. Take it sharper, and the whole code.`,
          ])
      } catch {
        setSaid((old) => [...old, `${file.name} is no picture that this browser can show.`])
      }
    }
  }

  return (
    <section className="receive" aria-label="Read codes">
      {carried ? (
        <CarriedJob
          carried={carried}
          onDone={(where) => {
            onDone()
            go(where)
          }}
        />
      ) : (
        <>
          <p>
            On the other device: Jobs, To another device. Then hold this one’s camera at the picture there.
          </p>
          <p className="keys-row">
            <button type="button" onClick={() => setCamera(!camera)}>
              {camera ? 'Stop the camera' : 'Use the camera'}
            </button>
            <button type="button" onClick={() => pictures.current?.click()}>
              From pictures
            </button>
            <input
              ref={pictures}
              hidden
              type="file"
              accept="image/*"
              multiple
              aria-label="Pictures of codes"
              onChange={(event) => void fromPictures(event.target.files)}
            />
          </p>
          {camera && (
            <Camera
              onCodes={take}
              onFault={(text) => {
                setCamera(false)
                setSaid([text])
              }}
            />
          )}
          {codes && (
            <p role="status">
              {codes.read.size} of {codes.of} codes read
            </p>
          )}
          {said.map((text) => (
            <p key={text} className="warning" role="alert">
              {text}
            </p>
          ))}
        </>
      )}
    </section>
  )
}

function Camera(props: {
  readonly onCodes: (texts: readonly string[]) => Promise<void>
  readonly onFault: (text: string) => void
}) {
  const video = useRef<HTMLVideoElement>(null)
  const { onCodes } = props
  const fault = useRef(props.onFault)
  useEffect(() => {
    let over = false
    let stream: MediaStream | undefined
    const canvas = document.createElement('canvas')
    const look = async () => {
      while (!over) {
        if (video.current) await onCodes(await readCodesIn(video.current, canvas))
        await new Promise((resolve) => setTimeout(resolve, pause))
      }
    }
    const start = async () => {
      try {
        const asked = { video: { facingMode: 'environment', width: { ideal: 1280 } } }
        stream = await navigator.mediaDevices.getUserMedia(asked)
        if (over || !video.current) return
        video.current.srcObject = stream
        await video.current.play()
        await look()
      } catch (error) {
        if (!over) fault.current(noCamera(error))
      } finally {
        for (const track of stream?.getTracks() ?? []) track.stop()
      }
    }
    void start()
    return () => {
      over = true
      for (const track of stream?.getTracks() ?? []) track.stop()
    }
  }, [onCodes])
  return <video ref={video} className="camera" playsInline muted aria-label="What the camera sees" />
}
