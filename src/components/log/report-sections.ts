/** The sections of the season report, loaded where there is something to report. */
import { trendOf } from '../../core/log/trends.ts';
import { h } from '../dom.ts';
import { additionsTable, chartFigure, remarks, type ReportData, summaryTable } from './report-parts.ts';
import { readingsTable } from './report-readings.ts';

/** @param width of the place on the screen, CSS pixels */
export function reportSections(about: Omit<ReportData, 'trend'>, width: number): HTMLElement[] {
  const data = { ...about, trend: trendOf(about.entries) };
  return [
    ...section('In short', summaryTable(data)),
    ...section('How it went', chartFigure(data, width)),
    ...section('What went in', additionsTable(data.entries)),
    ...section('Weather and notes', remarks(data.entries)),
    ...section('Every reading', readingsTable(data.entries)),
  ];
}

function section(title: string, content: HTMLElement | null): HTMLElement[] {
  return content ? [h('section', {}, h('h3', {}, title), content)] : [];
}
