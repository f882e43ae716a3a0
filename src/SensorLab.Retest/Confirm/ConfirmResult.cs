namespace SensorLab.Retest.Confirm;

/// <summary>Whether a profile still describes the body that took a job's frames.</summary>
/// <param name="Verdict">Different where a check is; undecided where what the frames show cannot tell; else consistent.</param>
/// <param name="Checks">Every check, identity first.</param>
/// <param name="Wanted">The frames that would tell what is open, or tell more.</param>
/// <param name="Notes">What the verdict rests on.</param>
public sealed record ConfirmResult(ConfirmVerdict Verdict, IReadOnlyList<ConfirmCheck> Checks, IReadOnlyList<string> Wanted, IReadOnlyList<string> Notes);
