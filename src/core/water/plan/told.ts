/** What is told and not treated: borate where it is used, metals behind stains, phosphate where algae grow. */
import type { PlanInput } from '../../pool/schema.ts';
import { MOLAR_MASS } from '../constants.ts';
import type { Told } from './types.ts';

/** mg/L as B. Common practice, no source, only where the owner uses borate at all. */
const BORATE = { low: 30, aim: 40, high: 50 } as const;
/** mg/L as B; less may be in any water. */
const MIN_BORATE = 5;

export function toldOf({ readings, look, pool }: PlanInput): Told[] {
  const boron = readings.boron?.value ?? 0;
  return [
    ...(boron >= MIN_BORATE ? [borate(boron, pool.volumeLitres)] : []),
    ...(look.stains && look.stains !== 'none' ? [{ code: `stains-${look.stains}` } as const] : []),
    ...(look.water === 'green' ? [{ code: 'phosphate' } as const] : []),
  ];
}

function borate(value: number, volumeLitres: number): Told {
  const { low, aim, high } = BORATE;
  const judgement = value < low ? 'low' : value > high ? 'high' : 'in-range';
  const lacking = judgement === 'low' ? aim - value : 0;
  const boricAcidGrams = ((lacking * volumeLitres) / 1000) * (MOLAR_MASS.boricAcid / MOLAR_MASS.B);
  return { code: 'borate', judgement, value, low, high, boricAcidGrams };
}
