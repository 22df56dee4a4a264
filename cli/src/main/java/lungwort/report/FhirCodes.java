package lungwort.report;

/**
 * Codes of the FHIR bundle, each with the mark of how it was seen: P on its own page, S second-hand, M from memory, to be checked before it is relied on.
 *
 * <p>FHIR R4: <a href="https://hl7.org/fhir/R4/">hl7.org/fhir/R4</a>. LOINC respiratory rate 9279-1 [P], SpO2 2708-6 [P] with 59408-5 for pulse oximetry [P]; pulse 8867-4, temperature
 * 8310-5, flow of inhaled oxygen 3151-8 in L/min [P, the pulse oximetry example of US Core], body weight 29463-7 in kg, and systolic pressure 8480-6 within the blood pressure panel 85354-9 [P, R4's vital signs pages]. SNOMED CT wheezing 56018004 [P], respiratory crackles 48409008 [S], wheeze-rhonchi 24612001 [S], low-pitched rhonchi
 * 53541006 [S], auscultation 37931006 [P]. Units are UCUM. No code says "normal": none heard is no finding.
 */
final class FhirCodes {
    static final String LOINC = "http://loinc.org";
    static final String SNOMED = "http://snomed.info/sct";
    static final String UCUM = "http://unitsofmeasure.org";

    static final Code RESPIRATORY_RATE = new Code(LOINC, "9279-1", "Respiratory rate");
    static final Code SPO2 = new Code(LOINC, "2708-6", "Oxygen saturation in Arterial blood");
    static final Code SPO2_OXIMETRY =
            new Code(LOINC, "59408-5", "Oxygen saturation in Arterial blood by Pulse oximetry");
    static final Code PULSE = new Code(LOINC, "8867-4", "Heart rate");
    static final Code TEMPERATURE = new Code(LOINC, "8310-5", "Body temperature");
    static final Code OXYGEN_FLOW = new Code(LOINC, "3151-8", "Inhaled oxygen flow rate");
    static final Code BODY_WEIGHT = new Code(LOINC, "29463-7", "Body weight");
    static final Code BLOOD_PRESSURE = new Code(LOINC, "85354-9", "Blood pressure panel with all children optional");
    static final Code DIASTOLIC = new Code(LOINC, "8462-4", "Diastolic blood pressure");
    static final Code SYSTOLIC = new Code(LOINC, "8480-6", "Systolic blood pressure");

    static final Code NOT_ASKED =
            new Code("http://terminology.hl7.org/CodeSystem/data-absent-reason", "not-asked", "Not Asked");

    static final Code AUSCULTATION = new Code(SNOMED, "37931006", "Auscultation");
    static final Code WHEEZING = new Code(SNOMED, "56018004", "Wheezing");
    static final Code CRACKLES = new Code(SNOMED, "48409008", "Respiratory crackles");
    static final Code WHEEZE_RHONCHI = new Code(SNOMED, "24612001", "Wheeze - rhonchi");
    static final Code RHONCHI = new Code(SNOMED, "53541006", "Low pitched rhonchi");

    /**
     * A code of a code system.
     *
     * @param system its URI
     * @param code in that system
     * @param display name for people
     */
    record Code(String system, String code, String display) {}

    private FhirCodes() {}
}
