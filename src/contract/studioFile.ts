/** The whole studio as one documented file, every reference in it checked. */
import { addFaults } from './fault.ts'
import { referenceFaults } from './references.ts'
import { studioFileFields } from './studioFields.ts'

export const studioFile = studioFileFields.superRefine((file, context) => addFaults(context, referenceFaults(file)))
