namespace SensorLab.Retest;

/// <summary>What to do after a re-test: one thing.</summary>
public enum RetestRecommendation
{
    /// <summary>Go on with the earlier profile.</summary>
    Keep,

    /// <summary>Take the later profile from now on.</summary>
    Replace,

    /// <summary>Shoot the frames that are named before deciding.</summary>
    ShootFirst,

    /// <summary>Tell everyone who works with the body's files: they are another kind of file now.</summary>
    TellTheTeam,
}
