package lungwort.guidance;

import java.util.Arrays;
import java.util.Locale;

/** A yes/no statement about a situation, on which a rule may depend. In the rules file: lower case, with hyphens. */
enum Fact {
    ASTHMA,
    COPD,
    HEART_FAILURE,
    PREGNANCY,
    SCALE_1,
    SCALE_2,
    ON_OXYGEN,
    SPO2_GIVEN,
    SPO2_BELOW_USUAL,
    /** On earlier days this person was measured without extra oxygen. */
    WITHOUT_OXYGEN_UNTIL_NOW,
    /** The breathing rate, counted awake, is well above this person's own usual. */
    RATE_ABOVE_USUAL,
    /** This person's own usual SpO2 fell little by little over months. */
    SPO2_USUAL_FELL,
    /** This person's own usual breathing rate rose little by little over months. */
    RATE_USUAL_ROSE,
    /** More oxygen is breathed than on earlier days, and SpO2 is not known to lie clearly above that of then. */
    MORE_OXYGEN,
    /** More oxygen is breathed than on earlier days, and SpO2 lies clearly above that of then. */
    MORE_OXYGEN_HIGHER_SPO2,
    /** COPD, a known risk, or a target of 88 to 92 % that a clinician set: too much oxygen can harm. */
    MAY_RETAIN_CO2,
    WEIGHT_GIVEN,
    /** The weight can hardly be beside an earlier one. */
    WEIGHT_FAR,
    ASLEEP,
    RATE_HEARD,
    TARGET_MAY_DIFFER,
    SCALE_2_SET_FOR_A_CHILD,
    CLINICIAN_LIMITS,
    FEVER,
    BREATHLESS,
    BREATHLESS_AT_REST,
    CANNOT_FINISH_SENTENCES,
    CHEST_PAIN,
    CHEST_INFECTION,
    NOT_ALERT,
    CONFUSED,
    EXTRA_SOUND,
    CONTINUOUS,
    DISCONTINUOUS,
    EXTRA_SOUND_NOT_SETTLED,
    EXTRA_SOUND_PERSISTS,
    EXTRA_SOUND_CLEARED,
    EXTRA_SOUND_KNOWN,
    CONTINUOUS_OVER_THE_NECK,
    CANNOT_TELL,
    /** None heard, or only this: that nothing stands out. */
    NONE_HEARD,
    /** Nothing stood out at a site, in a recording unlike nearly all that the model learnt from. */
    RECORDING_UNFAMILIAR,
    BREATH_NOT_HEARD,
    /** A pause was heard in a recording, and nobody said yet what it was. */
    PAUSE_OPEN,
    /** A pause was heard, and who was there says that the breathing stopped by itself. */
    PAUSE_REAL,
    /** A pause was heard, and who was there says that it was none, or held on purpose. */
    PAUSE_EXPLAINED,
    /** A rule on breathing rate or SpO2 already applies. Known only in the second pass. */
    BREATHING_OUT_OF_LIMITS;

    String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static Fact ofId(String id) {
        return Arrays.stream(values())
                .filter(f -> f.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("rules: no fact is called " + id));
    }
}
