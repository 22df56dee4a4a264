/** The local page: a guided round and the diary in a browser on the same computer. Serves what {@link lungwort.round} and {@link lungwort.diary} say; decides nothing itself. */
@NullMarked
package lungwort.page;

import org.jspecify.annotations.NullMarked;
