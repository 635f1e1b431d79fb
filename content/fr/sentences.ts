// All French sentences but those of the first screens, by topic.
import type { Sentences } from '../words.ts'
import { care } from './care.ts'
import { cautions } from './cautions.ts'
import { drawings } from './drawings.ts'
import { findings } from './findings.ts'
import { glossary } from './glossary.ts'
import { keeping } from './keeping.ts'
import { labels } from './labels.ts'
import { machines } from './machines.ts'
import { phone } from './phone.ts'
import { problems } from './problems.ts'
import { protection } from './protection.ts'
import { record } from './record.ts'
import { report } from './report.ts'
import { review } from './review.ts'
import { session } from './session.ts'
import { steps } from './steps.ts'
import { tool } from './tool.ts'
import { whys } from './whys.ts'

export const sentences: Sentences = {
  care,
  cautions,
  drawings,
  findings,
  glossary,
  keeping,
  labels,
  machines,
  phone,
  problems,
  protection,
  record,
  report,
  review,
  session,
  steps,
  tool,
  whys,
}
