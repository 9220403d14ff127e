import { useEffect, useState } from 'react'
import { useActions, useApp } from '../app.ts'
import { useInstall } from '../shell/install.ts'

const mega = 1_000_000

/** `1.2 MB`; what is over a thousand in GB. */
export function sizeWords(bytes: number): string {
  if (bytes < mega / 10) return 'less than 0.1 MB'
  const megas = bytes / mega
  return megas < 1000 ? `${megas.toFixed(1)} MB` : `${(megas / 1000).toFixed(1)} GB`
}

/** How safe it lies on this device, how much it takes, and what can be done about it. */
export function Room() {
  const room = useApp((state) => state.room)
  const { askToKeep } = useActions()
  const [asked, setAsked] = useState(false)
  const install = useInstall()
  useEffect(() => {
    if (room === null) void askToKeep()
  }, [room, askToKeep])
  const ask = async () => {
    await askToKeep()
    setAsked(true)
  }
  return (
    <div className="kept-here">
      <h3>What this browser promises</h3>
      {room?.lasting === true && (
        <p>It keeps what is here until somebody deletes it. The device itself can still break or get lost.</p>
      )}
      {room?.lasting === false && (
        <p className="warning">
          {asked
            ? 'It was asked and said no: it may clear everything here when the device runs short of room.'
            : 'It may clear everything here when the device runs short of room.'}{' '}
          Browsers say yes more easily when the app is installed, or after some days of use.
        </p>
      )}
      {room !== null && room.lasting === null && (
        <p className="warning">It does not say whether it will keep what is here. Take it for a no.</p>
      )}
      {!install.installed && (
        <p>
          Some tablets clear a site that was not opened for a week, unless it is installed on the home screen.
          {install.how === 'menu' &&
            ' To install it: open the menu of the browser (on some tablets the Share button) and choose “Add to Home Screen” or “Install”.'}{' '}
          On some tablets the installed app begins with an empty list: save everything to a file before, and
          open it there.
        </p>
      )}
      {room !== null && (
        <p>
          {room.uncopied === null
            ? 'Everything is kept twice: should the browser lose its database, it is put back from the second copy at the next start. Both are on this device.'
            : `No second copy is kept on this device: ${room.uncopied}.`}
        </p>
      )}
      {room !== null && room.used !== null && (
        <p>
          Space used: {sizeWords(room.used)}
          {room.most !== null && ` of ${sizeWords(room.most)} that this browser would give`}, the app itself
          included.
        </p>
      )}
      <p className="keys-row">
        {room?.lasting === false && (
          <button type="button" onClick={() => void ask()}>
            Ask the browser to keep it
          </button>
        )}
        {install.how === 'button' && (
          <button type="button" onClick={() => void install.install()}>
            Install on this device
          </button>
        )}
      </p>
    </div>
  )
}
