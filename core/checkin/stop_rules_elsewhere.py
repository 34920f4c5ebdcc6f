"""Stop signs in Spanish, German, French and Portuguese: the few words that everybody uses.

A client who is frightened writes in the language she thinks in. Words of chest, breath and fainting follow public
health pages: Spanish [Recoletas], German [ZRFSaar], French [AlloDocteurs], Portuguese [HospitalDaLuz]. Words of
distress, and how people shorten things, are from memory. Words are folded: no accents, no apostrophes.
"""

from core.checkin.stop_rule import Rule, rule
from core.checkin.urgency import Urgency

NOW, TODAY, DISTRESS = Urgency.EMERGENCY_NOW, Urgency.DOCTOR_TODAY, Urgency.DISTRESS

SPANISH: tuple[Rule, ...] = (
    rule(
        "es-chest",
        NOW,
        "pecho, torax, toracico",
        "duele, dolor, dolores, opresion, presion, aprieta, pinchazo, pinchazos, ardor, peso",
        near=5,
        unless="agujetas, press, dia de pecho, carne",
    ),
    rule(
        "es-heart",
        NOW,
        (
            "infarto, ataque al corazon, ataque cardiaco, me duele el corazon, derrame cerebral, "
            "ictus, convulsiones"
        ),
    ),
    rule("es-arm", NOW, "dolor, duele", "brazo izquierdo, mandibula", near=5, unless="diente, muela"),
    rule(
        "es-breath",
        NOW,
        (
            "no puedo respirar, me cuesta respirar, dificultad para respirar, me falta el aire, falta "
            "de aire, me ahogo, no me entra el aire"
        ),
        deniable=False,
    ),
    rule(
        "es-faint",
        NOW,
        (
            "desmaye, me he desmayado, he desmayado, desmayado, desmayada, desmayo, perdi el "
            "conocimiento, inconsciente"
        ),
    ),
    rule("es-dizzy", TODAY, "mareado, mareada, mareando, mareo, mareos"),
    rule(
        "es-distress",
        DISTRESS,
        "quiero morir, quiero morirme, no quiero vivir, matarme, suicidarme, suicidio, quitarme la vida",
        deniable=False,
    ),
)

GERMAN: tuple[Rule, ...] = (
    rule("de-chest-word", NOW, "brustschmerz, brustschmerzen, brustenge, herzschmerzen, engegefuhl"),
    rule(
        "de-chest",
        NOW,
        "brust, brustkorb, brustbein",
        "schmerz, schmerzen, schmerzt, weh, druck, enge, eng, stechen, sticht, brennen, brennt, zieht",
        near=5,
        unless="muskelkater, bankdrucken, brustmuskel, eng gegriffen",
    ),
    rule("de-heart", NOW, "herzinfarkt, herzanfall, schlaganfall, krampfanfall, herzstillstand"),
    rule("de-arm", NOW, "schmerz, schmerzen, taub", "linken arm, linker arm, kiefer", near=5, unless="zahn"),
    rule(
        "de-breath",
        NOW,
        (
            "keine luft, kaum luft, schlecht luft, wenig luft, atemnot, luftnot, kann nicht atmen, "
            "nicht mehr atmen, schwer zu atmen, ich ersticke, nicht richtig atmen"
        ),
        unless="keine luft mehr im reifen, luft nach oben",
        deniable=False,
    ),
    rule("de-faint", NOW, "ohnmachtig, ohnmacht, bewusstlos, bewusstlosigkeit, umgekippt, zusammengebrochen"),
    rule("de-dizzy", TODAY, "schwindlig, schwindelig, schwindel, schwarz vor augen, schwarz vor den augen"),
    rule(
        "de-distress",
        DISTRESS,
        (
            "nicht mehr leben, will sterben, mochte sterben, mich umbringen, selbstmord, suizid, "
            "suizidgedanken, das leben nehmen"
        ),
        deniable=False,
    ),
)

FRENCH: tuple[Rule, ...] = (
    rule(
        "fr-chest",
        NOW,
        "poitrine, thorax, thoracique",
        "mal, douleur, douleurs, serre, serree, serrement, oppression, pression, brule, brulure, pointe",
        near=5,
        unless="courbatures, developpe couche, mal fait",
    ),
    rule("fr-heart", NOW, "infarctus, crise cardiaque, mal au coeur, arret cardiaque, avc, convulsions"),
    rule("fr-arm", NOW, "mal, douleur", "bras gauche, machoire", near=5, unless="dent, dents"),
    rule(
        "fr-breath",
        NOW,
        (
            "arrive pas a respirer, narrive pas a respirer, arrive plus a respirer, narrive plus a "
            "respirer, peux pas respirer, peux plus respirer, mal a respirer, difficulte a respirer, "
            "du mal a respirer, jetouffe"
        ),
        deniable=False,
    ),
    rule(
        "fr-faint",
        NOW,
        (
            "evanoui, evanouie, mevanouir, perdu connaissance, perte de connaissance, dans les pommes, "
            "inconscient"
        ),
    ),
    rule("fr-dizzy", TODAY, "vertige, vertiges, tete qui tourne, la tete me tourne, etourdi, etourdie"),
    rule(
        "fr-distress",
        DISTRESS,
        "envie de mourir, veux mourir, veux plus vivre, me suicider, me tuer, en finir avec la vie",
        deniable=False,
    ),
)

PORTUGUESE: tuple[Rule, ...] = (
    rule(
        "pt-chest",
        NOW,
        (
            "dor no peito, dores no peito, aperto no peito, pressao no peito, peso no peito, doi o "
            "peito, doi me o peito, peito doi, peito a doer, peito esta a doer, peito apertado, dor no "
            "meio do peito"
        ),
        unless="dor muscular, supino",
    ),
    rule(
        "pt-chest-strong",
        NOW,
        "dor, dores, aperto, pressao, peso, queimacao",
        "no peito, do peito, meu peito",
        near=4,
        unless="dor muscular, supino",
    ),
    rule("pt-heart", NOW, "enfarte, infarto, ataque cardiaco, ataque do coracao, avc, convulsao, convulsoes"),
    rule("pt-arm", NOW, "dor no braco esquerdo, dor no maxilar, dor na mandibula, braco esquerdo dormente"),
    rule(
        "pt-breath",
        NOW,
        (
            "nao consigo respirar, custa me respirar, custa respirar, dificuldade em respirar, "
            "dificuldade para respirar, falta de ar, falta me o ar, sem ar"
        ),
        deniable=False,
    ),
    rule("pt-faint", NOW, "desmaiei, desmaiou, desmaio, desmaiar, perdi os sentidos, perdi a consciencia"),
    rule("pt-dizzy", TODAY, "tonto, tonta, tontura, tonturas"),
    rule(
        "pt-distress",
        DISTRESS,
        "quero morrer, nao quero viver, me matar, matar me, suicidio, acabar com a vida",
        deniable=False,
    ),
)

ELSEWHERE: tuple[Rule, ...] = (*SPANISH, *GERMAN, *FRENCH, *PORTUGUESE)
