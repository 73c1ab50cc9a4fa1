"""Tables of others: a start list and a part list are understood by their headings in every language the app speaks."""

from tests.web.in_node import asked

START: dict[str, str | None] = {
    **dict.fromkeys(["Plate", "plate_no", "Bib", "No.", "#", "Start number", "STARTER NO", "N°", "Nr."], "plate"),
    **dict.fromkeys(["Startnummer", "Start-Nr.", "Nummer", "Numéro", "Dossard", "N° de dossard", "Plaque"], "plate"),
    **dict.fromkeys(["Dorsal", "Número", "Número de dorsal", "PLACA"], "plate"),
    **dict.fromkeys(["Name", "Full name", "First name", "Surname", "Rider", "Vorname", "Nachname", "Fahrerin"], "name"),
    **dict.fromkeys(
        ["Nom", "Prénom", "Nom et prénom", "Coureur", "Nombre", "Apellidos", "Nombre y apellidos", "Corredora"], "name"
    ),
    **dict.fromkeys(["Bike", "Rad", "Fahrrad", "Vélo", "Bici", "Bicicleta"], "bike"),
    **dict.fromkeys(["Club", "Verein", "Numbered", "Team name", "Équipe", "Categoría", "", "Start", "Nombreux"], None),
}
PARTS: dict[str, str | None] = {
    **dict.fromkeys(["Slot", "Position", "Platz", "Emplacement", "Lugar", "Posición"], "slot"),
    **dict.fromkeys(["Part", "Component", "Description", "Bauteil", "Bezeichnung", "Pièce", "Désignation", "Pieza"], "name"),
    **dict.fromkeys(
        ["weighed", "Actual weight", "measured_g", "Gewicht gewogen", "Ist-Gewicht", "Poids pesé", "Peso real"], "weighed"
    ),
    **dict.fromkeys(
        ["claimed", "Weight (g)", "mass", "Gewicht", "Masse", "Poids annoncé", "Peso", "Masa anunciada"], "claimed"
    ),
    **dict.fromkeys(["Price", "cost", "Preis", "Prix", "Coût", "Precio"], "price"),
    **dict.fromkeys(["qty", "Pieces", "Anzahl", "Stückzahl", "Quantité", "Qté", "Cantidad"], "count"),
    **dict.fromkeys(["Colour", "Farbe", "Couleur", "Marque", "stem-bore.diameter", "torque_max", ""], None),
}


def test_headings_are_understood_in_every_language() -> None:
    told = asked("headings.mjs", {"start": list(START), "parts": list(PARTS)})
    assert dict(zip(START, told["start"], strict=True)) == START
    assert dict(zip(PARTS, told["parts"], strict=True)) == PARTS
