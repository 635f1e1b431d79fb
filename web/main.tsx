import { render } from 'preact'
import { App, fetchAhead } from './screens/app.tsx'
import { keepOffer } from './screens/install.tsx'
import { Safe } from './screens/safe.tsx'
import { startSettings } from './settings.ts'
import { startLanguage } from './words.ts'

/** The browser opens its own files of the log meanwhile: on a phone that was off that takes longer than the first screen. Creates nothing. */
const wakeStorage = async (): Promise<void> => {
  await indexedDB.databases?.()
}

const root = document.getElementById('app')
if (!root) throw new Error('index.html has no place for the app')
wakeStorage().catch(() => undefined)
startSettings()
keepOffer()
const paint = () => {
  // The start page stands in index.html and is read before this runs; it is replaced, not added to.
  root.replaceChildren()
  render(
    <Safe>
      <App />
    </Safe>,
    root,
  )
  fetchAhead()
  // After the first paint the update check takes over.
  requestAnimationFrame(() => setTimeout(() => import('./update.ts').then(({ keepOffline }) => keepOffline()).catch(() => undefined), 0))
}
// English paints at once; another language once its first words are here.
void startLanguage().then(paint)
