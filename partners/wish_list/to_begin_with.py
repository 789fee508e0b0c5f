"""What an elementary art room usually refuses, offered as a start (common practice; on labels: LHAMA, ASTM D 4236)."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

CANNOT_USE = (
    (_("paint, dye, glue or glaze that is old or has no label"), _("we cannot tell what is in it")),
    (_("anything marked “keep away from children” or with a chronic-hazard warning"), _("not for young children")),
    (_("dry clay, powdered pigment or powdered glaze"), _("dust")),
    (_("spray fixative, solvent, rubber cement"), _("fumes")),
    (_("food containers with anything left in them"), _("allergies")),
    (_("containers of medicine or alcohol"), _("not for school")),
    (_("glass, sharp metal, batteries"), _("children handle everything")),
    (_("latex, and plush that cannot be washed"), _("allergies")),
)
