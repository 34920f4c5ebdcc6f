"""What a clinician is called in a sentence."""

from collections.abc import Mapping

from core.loads.limits import Clinician

BY: Mapping[Clinician, str] = {
    Clinician.DOCTOR: "a doctor",
    Clinician.PHYSIOTHERAPIST: "a physiotherapist",
    Clinician.MIDWIFE: "a midwife",
    Clinician.OTHER: "a clinician",
}
