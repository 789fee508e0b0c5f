"""Every room's models, in the order of the rooms."""

from partners.ground.models import Event
from partners.program.models import Membership, Program, User
from partners.school.models import AcceptanceRule, Approval, LostLesson, Project, School, SchoolClass, SchoolDays

from partners.directory.models import Contact, Partner  # isort: skip
from partners.exchanges.models import Trade, TradeClass, TradeTally
from partners.gifts.models import Gift, GiftLine, Thanks
from partners.helpers.models import Helper, Kit, SlipBatch
from partners.helpers.session_models import Session, Turn
from partners.helpers.show_models import JobCard, Show, ShowJob, Welcome
from partners.letters.models import Letter, Sheet
from partners.promises.models import Delivery, Offer, Promise
from partners.visits.models import Ask, FollowUp, Outing, OutingStop, Visit
from partners.wish_list.models import CannotUse, Need

__all__ = [
    "AcceptanceRule",
    "Approval",
    "Ask",
    "CannotUse",
    "Contact",
    "Delivery",
    "Event",
    "FollowUp",
    "Gift",
    "GiftLine",
    "Helper",
    "JobCard",
    "Kit",
    "Letter",
    "LostLesson",
    "Membership",
    "Need",
    "Offer",
    "Outing",
    "OutingStop",
    "Partner",
    "Program",
    "Project",
    "Promise",
    "School",
    "SchoolClass",
    "SchoolDays",
    "Session",
    "Sheet",
    "Show",
    "ShowJob",
    "SlipBatch",
    "Thanks",
    "Trade",
    "TradeClass",
    "TradeTally",
    "Turn",
    "User",
    "Visit",
    "Welcome",
]
