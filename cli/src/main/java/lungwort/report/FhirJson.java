package lungwort.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.UUID;
import lungwort.json.Json;

/** The data types of FHIR R4 that the bundle uses, as JSON. */
final class FhirJson {
    private FhirJson() {}

    static String urn(UUID id) {
        return "urn:uuid:" + id;
    }

    static ObjectNode reference(UUID id) {
        return Json.object().put("reference", urn(id));
    }

    static ObjectNode concept(String text, FhirCodes.Code... codes) {
        ObjectNode concept = Json.object();
        if (codes.length > 0) {
            ArrayNode codings = concept.putArray("coding");
            for (FhirCodes.Code code : codes) {
                codings.addObject()
                        .put("system", code.system())
                        .put("code", code.code())
                        .put("display", code.display());
            }
        }
        return concept.put("text", string(text));
    }

    /** A quantity with its UCUM code; rounded to three decimals. */
    static ObjectNode quantity(double value, String unit, String ucum) {
        return quantity(value, 3, unit, ucum);
    }

    /** A quantity with its UCUM code; rounded to so many decimals, for more would claim a precision that nobody measured. */
    static ObjectNode quantity(double value, int decimals, String unit, String ucum) {
        BigDecimal rounded = BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_UP)
                .stripTrailingZeros();
        ObjectNode quantity = Json.object();
        quantity.put("value", rounded.scale() < 0 ? rounded.setScale(0) : rounded);
        return quantity.put("unit", unit).put("system", FhirCodes.UCUM).put("code", ucum);
    }

    /** A FHIR string may neither be empty nor hold control characters other than tab and line ends. */
    static String string(String text) {
        String clean = text.replaceAll("[\\p{Cntrl}&&[^\\t\\r\\n]]", "\uFFFD").strip();
        return clean.isEmpty() ? "-" : clean;
    }

    static ArrayNode list(ObjectNode only) {
        return Json.array().add(only);
    }
}
