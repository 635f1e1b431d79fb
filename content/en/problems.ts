// What the parts below the screens say, in English: their own sentences.
import { PROBLEMS } from '../shared/problems.ts'

export const problems = PROBLEMS
