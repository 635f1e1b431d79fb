import { words } from '../words.ts'
import type { Hunt } from './useSession.ts'

/** What went wrong with the last answer, and a reading that fits no single fault. */
export const Notice = ({ hunt }: { hunt: Hunt }) => (
  <>
    {hunt.error && (
      <p role="alert" class="problem">
        {hunt.error}
      </p>
    )}
    {hunt.session.fitsNothing && (
      <p role="status" class="problem">
        {words().labels.fitsNothing}
      </p>
    )}
  </>
)
