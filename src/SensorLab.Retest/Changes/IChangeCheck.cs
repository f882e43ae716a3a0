namespace SensorLab.Retest.Changes;

/// <summary>Looks for one kind of change.</summary>
internal interface IChangeCheck
{
    /// <summary>What was found, none where there is nothing.</summary>
    IEnumerable<Change> Find(RetestEvidence evidence);
}
