package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import lungwort.guidance.Site.Side;
import org.junit.jupiter.api.Test;

/** REFERENCE.md section 1, recording: CORSA's places [M]; order, posture and placement by common practice [C]. */
class SitesTest {
    @Test
    void aRoundComparesLeftWithRightAtTheSameHeightAndThenGoesLower() {
        for (List<Site> round : List.of(Sites.fullRound(), Sites.shortRound())) {
            List<Site> chest = round.stream().filter(Site::chest).toList();
            for (int i = 0; i < chest.size(); i += 2) {
                assertThat(chest.get(i).side()).isEqualTo(Side.LEFT);
                assertThat(chest.get(i).otherSide()).isEqualTo(chest.get(i + 1));
                if (i > 0 && chest.get(i).face() == chest.get(i - 1).face()) {
                    assertThat(chest.get(i).height())
                            .isGreaterThan(chest.get(i - 1).height());
                }
            }
            assertThat(round).doesNotHaveDuplicates();
        }
    }

    @Test
    void theFullRoundHoldsCorsasPlaces() {
        assertThat(Sites.fullRound())
                .extracting(Site::id)
                .contains(
                        "neck",
                        "back-lower-left",
                        "back-lower-right",
                        "front-upper-left",
                        "front-upper-right",
                        "side-lower-left",
                        "side-lower-right");
    }

    @Test
    void aSmallChildHasAShorterRound() {
        assertThat(Sites.round(Age.ofMonths(59))).hasSize(6).isEqualTo(Sites.shortRound());
        assertThat(Sites.round(Age.ofMonths(60))).hasSize(13);
    }

    @Test
    void everySiteHasANameAndAPlaceAndIsReadBack() {
        assertThat(Sites.catalogue()).hasSize(19).allSatisfy(site -> {
            assertThat(Sites.of(site.id())).isEqualTo(site);
            assertThat(Sites.placement(site)).endsWith(".");
            assertThat(site.id()).matches("neck|(back|side|front)-(upper|middle|lower)-(left|right)");
        });
        assertThat(Sites.catalogue())
                .filteredOn(Site::chest)
                .allMatch(s -> Sites.placement(s).contains("Between two ribs, never over bone."));
        assertThat(Sites.placement(Sites.of("back-upper-right"))).contains("between the shoulder blade and the spine");
        assertThat(Sites.of(" Back-Lower-Left ").words()).isEqualTo("back, lower, left");
    }

    @Test
    void theInstructionsFitTheAge() {
        assertThat(String.join(" ", Sites.beforeTheRound(Age.ofMonths(4))))
                .contains("Lay the baby on its back")
                .doesNotContain("sit up");
        assertThat(String.join(" ", Sites.beforeTheRound(Age.ofYears(40))))
                .contains("sit up")
                .contains("easy, deep breaths")
                .contains("Tap it once")
                .contains("seven to ten breaths");
    }
}
