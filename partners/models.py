"""Every room's models, in the order of the rooms."""

from partners.ground.models import Event, Touched
from partners.program.file_models import Attachment, KeptFile, LetterPicture
from partners.program.models import Device, Invitation, Membership, Program, User
from partners.school.approval_models import AcceptanceRule, Approval, Procedure
from partners.school.count_models import ClassCount
from partners.school.models import LostLesson, School, SchoolClass, SchoolDays
from partners.school.project_models import Project, ProjectClass, ProjectPart

from partners.directory.models import Contact, FormerPartner, NotSame, Partner  # isort: skip
from partners.exchanges.models import Trade, TradeClass, TradeTally
from partners.funding.buying_models import Certificate, Purchase, PurchaseLine
from partners.funding.grant_models import Grant, GrantAnswer, GrantChange, GrantLine, ReadyAnswer
from partners.funding.occasion_models import Occasion, OccasionDay
from partners.gifts.models import Gift, GiftLine, Thanks
from partners.helpers.models import Helper, Kit, SlipBatch
from partners.helpers.session_models import Session, Turn
from partners.helpers.show_models import JobCard, Show, ShowJob, Welcome
from partners.letters.models import Batch, Letter, Sheet, Wording
from partners.promises.models import Delivery, Offer, Promise
from partners.visits.models import Ask, FollowUp, Outing, OutingStop, Visit
from partners.wish_list.models import CannotUse, Need

__all__ = [
    "AcceptanceRule",
    "Approval",
    "Ask",
    "Attachment",
    "Batch",
    "CannotUse",
    "Certificate",
    "ClassCount",
    "Contact",
    "Delivery",
    "Device",
    "Event",
    "FollowUp",
    "FormerPartner",
    "Gift",
    "GiftLine",
    "Grant",
    "GrantAnswer",
    "GrantChange",
    "GrantLine",
    "Helper",
    "Invitation",
    "JobCard",
    "KeptFile",
    "Kit",
    "Letter",
    "LetterPicture",
    "LostLesson",
    "Membership",
    "Need",
    "NotSame",
    "Occasion",
    "OccasionDay",
    "Offer",
    "Outing",
    "OutingStop",
    "Partner",
    "Procedure",
    "Program",
    "Project",
    "ProjectClass",
    "ProjectPart",
    "Promise",
    "Purchase",
    "PurchaseLine",
    "ReadyAnswer",
    "School",
    "SchoolClass",
    "SchoolDays",
    "Session",
    "Sheet",
    "Show",
    "ShowJob",
    "SlipBatch",
    "Thanks",
    "Touched",
    "Trade",
    "TradeClass",
    "TradeTally",
    "Turn",
    "User",
    "Visit",
    "Welcome",
    "Wording",
]
