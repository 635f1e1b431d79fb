import { useState } from 'preact/hooks'
import { unpack } from '../qr/pack.ts'
import { words } from '../words.ts'
import { Scan } from './machineScan.tsx'

/** A session that another phone shows as codes. */
export const TakeOver = ({ back, done }: { back: () => void; done: (text: string) => void }) => {
  const [spoiled, setSpoiled] = useState(false)
  const read = async (bytes: Uint8Array) => {
    const text = await unpack(bytes)
    if (text === undefined) setSpoiled(true)
    else done(text)
  }
  return (
    <>
      {spoiled && (
        <p role="alert" class="problem">
          {words().machines.scan.refused.damaged}
        </p>
      )}
      <Scan kind="session" done={bytes => void read(bytes)} back={back} />
    </>
  )
}
