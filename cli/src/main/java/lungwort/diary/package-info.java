/** The diary: persons, rounds, takes, examinations and notes in one SQLite file, recordings beside it by content hash. Kept on this computer only. */
@NullMarked
package lungwort.diary;

import org.jspecify.annotations.NullMarked;
