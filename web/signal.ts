// A short sound and a short shake for what the screen says anyway. Never needed, and silent where the phone has neither.
import { settings } from './settings.ts'

/** Hz, and ms of shaking: an answer that is stored, and one that is refused (common practice, no source). */
const SIGNALS = {
  saved: { pitch: 880, shake: [30] },
  refused: { pitch: 220, shake: [60, 60, 60] },
} as const
/** Length of the sound, s, and its loudness of 1. */
const LENGTH = 0.12
const LOUD = 0.15

let audio: AudioContext | undefined

const beep = (pitch: number): void => {
  if (!('AudioContext' in globalThis)) return
  audio ??= new AudioContext()
  const { currentTime, destination } = audio
  const tone = new OscillatorNode(audio, { frequency: pitch })
  tone.connect(new GainNode(audio, { gain: LOUD })).connect(destination)
  tone.start(currentTime)
  tone.stop(currentTime + LENGTH)
}

export const signal = (what: keyof typeof SIGNALS): void => {
  const { pitch, shake } = SIGNALS[what]
  const { sound, vibration } = settings()
  if (vibration === 'on') navigator.vibrate?.([...shake])
  if (sound === 'on') beep(pitch)
}
