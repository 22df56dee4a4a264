/**
 * The report: one round or a span of days as a page, a print, a FHIR bundle or a table of measures.
 *
 * <p>{@link lungwort.report.ReportService} gathers what is told ({@link lungwort.report.ReportContent}); each format only writes it down. Nothing in a report depends on the clock
 * or on chance, so the same diary gives the same bytes.
 */
@NullMarked
package lungwort.report;

import org.jspecify.annotations.NullMarked;
