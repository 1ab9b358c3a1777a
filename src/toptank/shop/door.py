"""The door of the shop: all that interfaces may take from it, and the public Python API (`import toptank`).

What stands below is imported when it is asked for and not before (`units/late.py`).
"""

# What it imports is what it gives:
# pyright: reportUnusedImport=false

from typing import TYPE_CHECKING

from toptank.units.late import late_names

if TYPE_CHECKING:
    from toptank.catalogue.causes.cause import Cause
    from toptank.catalogue.checks.check import Check
    from toptank.knowledge.forecast import DutyForecast
    from toptank.shop.answers import record as record_answers
    from toptank.shop.answers.answer import Answer, Band
    from toptank.shop.answers.answers import (
        Chosen,
        Diagnosed,
        Evaluation,
        Forecast,
        Weighty,
    )
    from toptank.shop.answers.bench import (
        BoilAnswer,
        CoreAnswer,
        ExplainAnswer,
        FreezeAnswer,
        SheetAnswer,
        VehiclesAnswer,
    )
    from toptank.shop.answers.checks_and_causes import CausesAnswer, ChecksAnswer
    from toptank.shop.answers.choice import (
        ChoiceAnswer,
        PlanAnswer,
        PlanDuty,
        PricesAnswer,
        choice_answer,
        prices_answer,
    )
    from toptank.shop.answers.diagnosis import CauseAnswer, DiagnosisAnswer, NextCheck, diagnosis_answer
    from toptank.shop.answers.drive import DriveAnswer, StretchAnswer
    from toptank.shop.answers.evaluation import evaluation_answer
    from toptank.shop.answers.fit import FitAnswer, fit_answer
    from toptank.shop.answers.fleet import FleetAnswer, FleetVehicleAnswer
    from toptank.shop.answers.fleet import eased as eased_words
    from toptank.shop.answers.fluids.coolant import (
        BleedAnswer,
        CapAnswer,
        WaterAnswer,
        bleed_answer,
        cap_answer,
        water_answer,
    )
    from toptank.shop.answers.fluids.mix import MixAnswer, mix_answer
    from toptank.shop.answers.forecast import Assumption, DutyAnswer, ForecastAnswer, demo_answer, forecast_answer
    from toptank.shop.answers.log import LogAnswer, log_answer
    from toptank.shop.answers.log_answers import Logged, Verified
    from toptank.shop.answers.record import (
        AttachmentsAnswer,
        HistoryAnswer,
        JobAnswer,
        JobAttachmentAnswer,
        JobListAnswer,
        JobNoteAnswer,
        RevisionAnswer,
        attachment_answer,
        attachments_answer,
        history_answer,
        kept_answer,
        list_answer,
        note_answer,
        record_answer,
        revision_answer,
    )
    from toptank.shop.answers.similar import SimilarAnswer
    from toptank.shop.answers.summaries.choice_summary import choice_summary
    from toptank.shop.answers.summaries.diagnosis_summary import diagnosis_summary, first_check
    from toptank.shop.answers.summaries.drive_summary import drive_summary
    from toptank.shop.answers.summaries.forecast_summary import forecast_summary
    from toptank.shop.answers.summaries.summary import ShortAnswer, minutes_words, times_as_likely
    from toptank.shop.answers.summaries.three_plans import NamedPlan, plan_line, plan_marks, three_plans
    from toptank.shop.answers.summaries.verdict_summary import verdict_summary
    from toptank.shop.answers.summaries.verdict_summary import works as verdict_works
    from toptank.shop.answers.summaries.verdict_summary import worst_day_now as verdict_worst_day
    from toptank.shop.answers.verdict import VerdictAnswer, verdict_answer
    from toptank.shop.answers.what_if import WhatIfAnswer, what_if_answer
    from toptank.shop.answers.words import naming
    from toptank.shop.answers.words.drive_words import NOTHING_EASES
    from toptank.shop.answers.words.fill_words import after_a_flush, fill_words
    from toptank.shop.answers.words.invented_prices import invented_prices
    from toptank.shop.answers.words.log_words import clock_words, shown_lines, worth_words
    from toptank.shop.answers.words.reasons import REASONED, reason
    from toptank.shop.answers.words.verdict_words import headline, verdict_lines
    from toptank.shop.answers.words.wording import (
        as_typed,
        band,
        chance,
        degrees,
        gauge_band,
        money,
        reached_outside,
        sentence,
        shop_volume,
        volume,
    )
    from toptank.shop.answers.words.wording import time as working_time
    from toptank.shop.ask import boiling, loop_parts, service, similar_jobs, stored_answers
    from toptank.shop.ask import diagnose as diagnose_verbs
    from toptank.shop.ask import fit as fit_verbs
    from toptank.shop.ask import verify as verify_verbs
    from toptank.shop.ask import what_if as what_if_verbs
    from toptank.shop.ask.choice import choose as choose_verbs
    from toptank.shop.ask.choice.plan_fit import plan_fit
    from toptank.shop.ask.coolant import coolant as coolant_verbs
    from toptank.shop.ask.coolant import job_coolant
    from toptank.shop.ask.coolant import mix as mix_verbs
    from toptank.shop.ask.coolant.coolant import CapAndBottle, WaterJudged
    from toptank.shop.ask.coolant.job_coolant import CoolantOfJob, next_due
    from toptank.shop.ask.coolant.mix import CAP as MIX_CAP
    from toptank.shop.ask.coolant.mix import Mixed
    from toptank.shop.ask.fit import Fitted
    from toptank.shop.ask.fit import name as fit_name
    from toptank.shop.ask.fit import picture as fit_picture
    from toptank.shop.ask.fit import told as fit_told
    from toptank.shop.ask.fit import words as fit_words
    from toptank.shop.ask.fleet import fleet as fleet_verbs
    from toptank.shop.ask.fleet.fleet import Progress as FleetProgress
    from toptank.shop.ask.logs import log as log_verbs
    from toptank.shop.ask.logs.columns_asked import LogLook, Looked, Meaning, meanings
    from toptank.shop.ask.loop import Loop
    from toptank.shop.ask.loop_parts import PartTold
    from toptank.shop.ask.what_if import Dial, WhatIf
    from toptank.shop.cache import answer_cache, last_answers
    from toptank.shop.cache.answer_cache import Road
    from toptank.shop.cache.memory import few_heaps
    from toptank.shop.edit import (
        check_figure,
        complaint_form,
        evidence_verbs,
        figure_form,
        fit_form,
        kept_logs,
        log_verdicts,
        remedies_form,
        row_names,
        symptom_form,
    )
    from toptank.shop.edit import edit as edit_verbs
    from toptank.shop.edit.change_words import change_words, field_words
    from toptank.shop.edit.complaint_form import rows_of
    from toptank.shop.edit.edit_groups import Burst, bursts
    from toptank.shop.edit.form import HOWS, Field, Group, sheet_form
    from toptank.shop.edit.kept_logs import Said, SentLog
    from toptank.shop.edit.proposed_figure import ProposedFigure
    from toptank.shop.edit.row_names import Names
    from toptank.shop.files.atomic_write import check_place, write_whole
    from toptank.shop.files.toml_file import shortened
    from toptank.shop.job import intake, starting_file
    from toptank.shop.job.job import Job
    from toptank.shop.job.price_book import PriceBook
    from toptank.shop.log.legs import DEMO_CLIMB, TOWING_CLIMB
    from toptank.shop.log.legs import EXAMPLE as EXAMPLE_LEGS
    from toptank.shop.log.legs import MOST_LETTERS as MOST_LETTERS_OF_LEGS
    from toptank.shop.log.noted_table import NotedRow
    from toptank.shop.order import after_work, ticks
    from toptank.shop.order.after_work import Compared
    from toptank.shop.order.check_drive import CheckDrive
    from toptank.shop.order.files import check_places, write_files
    from toptank.shop.order.record import Order
    from toptank.shop.order.record import Step as OrderStep
    from toptank.shop.order.setting.pdf import Paper as Size
    from toptank.shop.order.setting.pdf import checklist_pdf
    from toptank.shop.order.setting.pdf import pdf as order_pdf
    from toptank.shop.order.setting.web_page import web_page as order_web_page
    from toptank.shop.order.what_was_done import what_was_done
    from toptank.shop.order.writing import order as written_order
    from toptank.shop.questions import (
        bleed,
        boil,
        cap,
        causes,
        checks,
        choose,
        core,
        diagnose,
        drive,
        evaluate,
        explain,
        fit,
        fleet,
        forecast,
        freeze,
        mix,
        open_job,
        prices,
        read_log,
        vehicles,
        verify,
        water,
        what_if,
    )
    from toptank.shop.record import export_verbs, job_verbs, own_prices, plan_taken, shop_settings
    from toptank.shop.record.shop_settings import Shop
    from toptank.shop.record.store import document as job_document
    from toptank.shop.record.store.record import JobRecord, JobRow, KeptAnswer, Revision, StoreTrouble
    from toptank.studies.choose.coolant.bleeding import Bleeding
    from toptank.studies.choose.coolant.cap_choice import CapRow
    from toptank.studies.choose.decision import Decisive
    from toptank.studies.choose.fit.fit import Fit
    from toptank.studies.diagnose.diagnosis import Diagnosis
    from toptank.studies.diagnose.evidence import Reading
    from toptank.studies.diagnose.trial.scoring import Summary


__getattr__, __dir__ = late_names(__file__, of="the door of the shop")
