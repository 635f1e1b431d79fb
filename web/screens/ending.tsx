import { words } from '../words.ts'
import { Sheet } from './sheet.tsx'

interface EndingProps {
  readonly close: () => void
  readonly handOver: () => void
  readonly stop: () => void
}

/** The job ends here: a colleague goes on with it, or nobody does. */
export const Ending = ({ close, handOver, stop }: EndingProps) => {
  const { cannot, ending } = words().session
  return (
    <Sheet title={ending} close={close}>
      <button type="button" class="answer" onClick={handOver}>
        {cannot.handOver}
      </button>
      <button type="button" class="answer" onClick={stop}>
        {cannot.stop}
      </button>
    </Sheet>
  )
}
