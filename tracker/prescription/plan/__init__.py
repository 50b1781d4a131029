"""A wave planned backward from the day of a test: asked for, laid out by weeks and days, written as a coach's sheet."""

from tracker.prescription.plan.ask import PlanAsk, PlanLift, Shape
from tracker.prescription.plan.layout import PlannedDay, PlanWeek, days_of, weeks_of
from tracker.prescription.plan.writing import plan_sheet, plan_text

__all__ = ["PlanAsk", "PlanLift", "PlanWeek", "PlannedDay", "Shape", "days_of", "plan_sheet", "plan_text", "weeks_of"]
